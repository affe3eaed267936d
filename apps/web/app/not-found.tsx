import { Door } from '#features/shell/door.tsx'
import { NotFoundScreen } from '#features/shell/not-found-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function NotFound() {
  return (
    <WordsOf features={['shell']}>
      <Door>
        <NotFoundScreen />
      </Door>
    </WordsOf>
  )
}
