import { CompareScreen } from '#features/compare/compare-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function ComparePage() {
  return (
    <WordsOf features={['designs', 'range', 'compare']}>
      <CompareScreen />
    </WordsOf>
  )
}
