import { EditScreen } from '#features/specifications/write-screens.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default async function EditSpecificationPage({ params }: { params: Promise<{ specification: string }> }) {
  const { specification } = await params
  return (
    <WordsOf features={['specifications']}>
      <EditScreen id={specification} />
    </WordsOf>
  )
}
