import { MethodScreen } from '#features/methods/method-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default async function MethodPage({ params }: { params: Promise<{ method: string }> }) {
  const { method } = await params
  return (
    <WordsOf features={['methods', 'specifications']}>
      <MethodScreen methodKey={method} />
    </WordsOf>
  )
}
