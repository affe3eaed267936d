import { SheetScreen } from '#features/bench-sheet/sheet-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function SheetPage() {
  return (
    <WordsOf features={['bench', 'sheet', 'observations']}>
      <SheetScreen />
    </WordsOf>
  )
}
