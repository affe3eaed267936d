import { InvitationScreen } from '#features/invitations/invitation-screen.tsx'
import { Door } from '#features/shell/door.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function InvitationPage() {
  return (
    <WordsOf features={['shell', 'invitation']}>
      <Door>
        <InvitationScreen />
      </Door>
    </WordsOf>
  )
}
