import { SettingsScreen } from '#features/laboratory-settings/settings-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function SettingsPage() {
  return (
    <WordsOf features={['settings', 'wall-screens']}>
      <SettingsScreen />
    </WordsOf>
  )
}
