import { PutInScreen } from '#features/put-in/put-in-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function PutInPage() {
  return (
    <WordsOf features={['bench', 'put-in']}>
      <PutInScreen />
    </WordsOf>
  )
}
