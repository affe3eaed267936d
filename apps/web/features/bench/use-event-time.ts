'use client'

import { useContext, useState } from 'react'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { readEventTime, type EventChoice, type ReadEventTime } from './event-time.ts'
import { ClockOffset } from './laboratory-clock.ts'

export type EventTimeState = {
  readonly choice: EventChoice
  readonly word: string
  readonly fault: Extract<ReadEventTime, { ok: false }> | undefined
  readonly choose: (choice: EventChoice) => void
  readonly write: (word: string) => void
  /** The time at this moment; what is missing is shown beside the field. */
  readonly take: () => Extract<ReadEventTime, { ok: true }> | undefined
  /** As it would be read now, for the echo. */
  readonly read: () => ReadEventTime
  readonly reset: () => void
}

/** When the act happened, apart from when it is told. */
export function useEventTime(): EventTimeState {
  const { zone } = useLaboratory()
  const offset = useContext(ClockOffset)
  const [choice, setChoice] = useState<EventChoice>({ how: 'now' })
  const [word, setWord] = useState('')
  const [fault, setFault] = useState<Extract<ReadEventTime, { ok: false }>>()
  const read = () => readEventTime(choice, word, { deviceNow: Date.now(), offset, zone })
  return {
    choice,
    word,
    fault,
    choose: (next) => {
      setFault(undefined)
      setChoice(next)
    },
    write: (next) => {
      setFault(undefined)
      setWord(next)
    },
    read,
    take: () => {
      const result = read()
      setFault(result.ok ? undefined : result)
      return result.ok ? result : undefined
    },
    reset: () => {
      setFault(undefined)
      setChoice({ how: 'now' })
      setWord('')
    },
  }
}
