import { WriteScreen } from '#features/specifications/write-screens.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function WriteSpecificationPage() {
  return (
    <WordsOf features={['specifications']}>
      <WriteScreen />
    </WordsOf>
  )
}
