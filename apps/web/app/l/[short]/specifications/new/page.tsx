import { AdoptScreen } from '#features/specifications/adopt-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function AdoptPage() {
  return (
    <WordsOf features={['specifications']}>
      <AdoptScreen />
    </WordsOf>
  )
}
