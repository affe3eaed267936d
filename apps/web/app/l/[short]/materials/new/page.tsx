import { NewMaterialScreen } from '#features/materials/new-material-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function NewMaterialPage() {
  return (
    <WordsOf features={['materials', 'custody']}>
      <NewMaterialScreen />
    </WordsOf>
  )
}
