import { SpecificationScreen } from '#features/specifications/specification-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default async function SpecificationPage({ params }: { params: Promise<{ specification: string }> }) {
  const { specification } = await params
  return (
    <WordsOf features={['specifications']}>
      <SpecificationScreen id={specification} />
    </WordsOf>
  )
}
