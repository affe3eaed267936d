import { ItemScreen } from '#features/custody/item-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default async function ItemPage({ params }: { params: Promise<{ item: string }> }) {
  const { item } = await params
  return (
    <WordsOf features={['custody', 'bench', 'labels']}>
      <ItemScreen id={item} />
    </WordsOf>
  )
}
