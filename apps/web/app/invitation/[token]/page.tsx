import { InvitationScreen } from '#features/invitations/invitation-screen.tsx'
import { Door } from '#features/shell/door.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default async function InvitationPage({ params }: { params: Promise<{ token: string }> }) {
  const { token } = await params
  return (
    <WordsOf features={['shell', 'invitation']}>
      <Door>
        <InvitationScreen token={token} />
      </Door>
    </WordsOf>
  )
}
