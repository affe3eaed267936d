import { ChangeBoundScreen } from '#features/methods/change-bound-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default async function ChangeBoundPage({ params }: { params: Promise<{ method: string }> }) {
  const { method } = await params
  return (
    <WordsOf features={['methods']}>
      <ChangeBoundScreen methodKey={method} />
    </WordsOf>
  )
}
