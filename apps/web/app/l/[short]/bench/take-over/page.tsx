import { TakeOverScreen } from '#features/hand-over/take-over-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function TakeOverPage() {
  return (
    <WordsOf features={['bench', 'hand-over']}>
      <TakeOverScreen />
    </WordsOf>
  )
}
