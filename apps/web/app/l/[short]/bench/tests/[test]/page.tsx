import { TestScreen } from '#features/bench/test-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default async function TestPage({ params }: { params: Promise<{ test: string }> }) {
  const { test } = await params
  return (
    <WordsOf features={['bench', 'deviations', 'observations', 'attachments']}>
      <TestScreen key={test} testId={test} />
    </WordsOf>
  )
}
