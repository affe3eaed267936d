import { PlacesScreen } from '#features/custody/places-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function PlacesPage() {
  return (
    <WordsOf features={['custody']}>
      <PlacesScreen />
    </WordsOf>
  )
}
