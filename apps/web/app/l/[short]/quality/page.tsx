import { QualityScreen } from '#features/deviations/quality-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function QualityPage() {
  return (
    <WordsOf features={['deviations']}>
      <QualityScreen />
    </WordsOf>
  )
}
