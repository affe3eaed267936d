import { SpecificationsScreen } from '#features/specifications/specifications-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function SpecificationsPage() {
  return (
    <WordsOf features={['specifications']}>
      <SpecificationsScreen />
    </WordsOf>
  )
}
