import { ImportScreen } from '#features/instruments/import-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function ImportInstrumentsPage() {
  return (
    <WordsOf features={['instruments', 'instrument-import']}>
      <ImportScreen />
    </WordsOf>
  )
}
