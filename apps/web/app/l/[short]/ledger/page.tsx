import { LedgerScreen } from '#features/ledger/ledger-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function LedgerPage() {
  return (
    <WordsOf features={['ledger']}>
      <LedgerScreen />
    </WordsOf>
  )
}
