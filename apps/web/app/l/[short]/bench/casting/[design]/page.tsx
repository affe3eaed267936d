import { CastingScreen } from '#features/casting/casting-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default async function CastingPage({ params }: { params: Promise<{ design: string }> }) {
  const { design } = await params
  return (
    <WordsOf features={['bench', 'casting']}>
      <CastingScreen designId={design} />
    </WordsOf>
  )
}
