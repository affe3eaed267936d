import { ActsScreen } from '#features/bench/acts-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function StepsPage() {
  return (
    <WordsOf features={['bench']}>
      <ActsScreen />
    </WordsOf>
  )
}
