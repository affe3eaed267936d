import { MethodsScreen } from '#features/methods/methods-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function MethodsPage() {
  return (
    <WordsOf features={['methods']}>
      <MethodsScreen />
    </WordsOf>
  )
}
