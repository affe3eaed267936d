import { ChooseLaboratoryScreen } from '#features/session/choose-laboratory-screen.tsx'
import { Door } from '#features/shell/door.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function ChooseLaboratoryPage() {
  return (
    <WordsOf features={['shell', 'session']}>
      <Door>
        <ChooseLaboratoryScreen />
      </Door>
    </WordsOf>
  )
}
