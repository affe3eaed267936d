import { LabelsScreen } from '#features/labels/labels-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default async function LabelsPage({ params }: { params: Promise<{ item: string }> }) {
  const { item } = await params
  return (
    <WordsOf features={['labels']}>
      <LabelsScreen item={item} />
    </WordsOf>
  )
}
