import { ValidationScreen } from '#features/validation/validation-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function ValidationPage() {
  return (
    <WordsOf features={['validation']}>
      <ValidationScreen />
    </WordsOf>
  )
}
