import { OvensScreen } from '#features/loads/ovens-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function OvensPage() {
  return (
    <WordsOf features={['loads', 'conditions', 'bench']}>
      <OvensScreen />
    </WordsOf>
  )
}
