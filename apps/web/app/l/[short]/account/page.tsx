import { AccountScreen } from '#features/account/account-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function AccountPage() {
  return (
    <WordsOf features={['account']}>
      <AccountScreen />
    </WordsOf>
  )
}
