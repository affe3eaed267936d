import { NewProjectScreen } from '#features/projects/new-project-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function NewProjectPage() {
  return (
    <WordsOf features={['projects', 'clients']}>
      <NewProjectScreen />
    </WordsOf>
  )
}
