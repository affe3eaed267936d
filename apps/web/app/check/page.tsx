import { CheckScreen } from '#features/report-check/check-screen.tsx'
import { Door } from '#features/shell/door.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function CheckPage() {
  return (
    <WordsOf features={['shell', 'report-check']}>
      <Door>
        <CheckScreen />
      </Door>
    </WordsOf>
  )
}
