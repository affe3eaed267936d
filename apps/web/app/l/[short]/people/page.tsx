import { PeopleScreen } from '#features/people/people-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function PeoplePage() {
  return (
    <WordsOf features={['people']}>
      <PeopleScreen />
    </WordsOf>
  )
}
