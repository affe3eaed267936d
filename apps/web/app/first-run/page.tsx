import { FirstRunScreen } from '#features/first-run/first-run-screen.tsx'
import { Door } from '#features/shell/door.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function FirstRunPage() {
  return (
    <WordsOf features={['shell', 'first-run']}>
      <Door wide>
        <FirstRunScreen />
      </Door>
    </WordsOf>
  )
}
