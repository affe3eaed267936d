'use client'

import type { Specification } from '@curebook/contract/specifications'
import { StatusMark } from '#components/status-mark.tsx'
import { useWords } from '#lib/words.ts'

const marks = { current: 'current', superseded: 'superseded', withdrawn: 'ended' } as const

/** Whether a version may be chosen, was followed by another, or is withdrawn with its line. */
export function StandingMark({ standing }: { standing: Specification['standing'] }) {
  const words = useWords()
  return <StatusMark status={marks[standing]}>{words(`specifications.standing.${standing}`)}</StatusMark>
}
