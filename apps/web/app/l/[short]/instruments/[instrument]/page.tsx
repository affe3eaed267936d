import { InstrumentScreen } from '#features/instruments/instrument-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default async function InstrumentPage({ params }: { params: Promise<{ instrument: string }> }) {
  const { instrument } = await params
  return (
    <WordsOf features={['instruments', 'bench']}>
      <InstrumentScreen id={instrument} />
    </WordsOf>
  )
}
