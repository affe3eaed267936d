import { PleaseSendScreen } from '#features/designs/please-send-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default async function PleaseSendPage({ params }: { params: Promise<{ design: string }> }) {
  const { design } = await params
  return (
    <WordsOf features={['designs']}>
      <PleaseSendScreen id={design} />
    </WordsOf>
  )
}
