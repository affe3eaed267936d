import { NewDesignScreen } from '#features/designs/new-design-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function NewDesignPage() {
  return (
    <WordsOf features={['designs', 'project-specifications']}>
      <NewDesignScreen />
    </WordsOf>
  )
}
