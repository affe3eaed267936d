import { RackScreen } from '#features/bench/rack-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function RackPage() {
  return (
    <WordsOf features={['bench']}>
      <RackScreen />
    </WordsOf>
  )
}
