import { InstrumentsScreen } from '#features/instruments/instruments-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function InstrumentsPage() {
  return (
    <WordsOf features={['instruments']}>
      <InstrumentsScreen />
    </WordsOf>
  )
}
