import { MaterialsScreen } from '#features/materials/materials-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function MaterialsPage() {
  return (
    <WordsOf features={['materials']}>
      <MaterialsScreen />
    </WordsOf>
  )
}
