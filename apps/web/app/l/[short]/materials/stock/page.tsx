import { StockScreen } from '#features/custody/stock-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function StockPage() {
  return (
    <WordsOf features={['custody']}>
      <StockScreen />
    </WordsOf>
  )
}
