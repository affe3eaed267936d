import { ScheduleScreen } from '#features/schedule/schedule-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function SchedulePage() {
  return (
    <WordsOf features={['schedule']}>
      <ScheduleScreen />
    </WordsOf>
  )
}
