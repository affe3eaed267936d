import { DesignsScreen } from '#features/designs/designs-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function DesignsPage() {
  return (
    <WordsOf features={['designs']}>
      <DesignsScreen />
    </WordsOf>
  )
}
