import { HomeScreen } from '#features/session/home-screen.tsx'
import { Door } from '#features/shell/door.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function HomePage() {
  return (
    <WordsOf features={['shell', 'session']}>
      <Door>
        <HomeScreen />
      </Door>
    </WordsOf>
  )
}
