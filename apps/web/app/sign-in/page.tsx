import { SignInScreen } from '#features/session/sign-in-screen.tsx'
import { Door } from '#features/shell/door.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function SignInPage() {
  return (
    <WordsOf features={['shell', 'session']}>
      <Door>
        <SignInScreen />
      </Door>
    </WordsOf>
  )
}
