import { OfferScreen } from '#features/hand-over/offer-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function HandOverPage() {
  return (
    <WordsOf features={['bench', 'hand-over']}>
      <OfferScreen />
    </WordsOf>
  )
}
