import { BenchScreen } from '#features/bench/bench-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function BenchPage() {
  return (
    <WordsOf features={['bench']}>
      <BenchScreen />
    </WordsOf>
  )
}
