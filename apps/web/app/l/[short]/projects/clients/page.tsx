import { ClientsScreen } from '#features/clients/clients-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function ClientsPage() {
  return (
    <WordsOf features={['clients']}>
      <ClientsScreen />
    </WordsOf>
  )
}
