import { NewInstrumentScreen } from '#features/instruments/new-instrument-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function NewInstrumentPage() {
  return (
    <WordsOf features={['instruments']}>
      <NewInstrumentScreen />
    </WordsOf>
  )
}
