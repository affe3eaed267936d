import { CheckedScreen } from '#features/report-check/checked-screen.tsx'
import { Door } from '#features/shell/door.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default async function CheckedPage({ params }: { params: Promise<{ code: string }> }) {
  const { code } = await params
  return (
    <WordsOf features={['shell', 'report-check']}>
      <Door wide>
        <CheckedScreen code={decodeURIComponent(code)} />
      </Door>
    </WordsOf>
  )
}
