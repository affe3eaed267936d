'use client'

import type { Item } from '@curebook/contract/custody'
import { useState } from 'react'
import type { EventTimeState } from '#features/bench/use-event-time.ts'
import { useSending } from '#features/bench/use-sending.ts'
import type { LastSending } from '#lib/sending.ts'
import { toldMeanwhile } from './decided-on.ts'

/**
 * An act as it is sent: its id, its time, and the event that it was decided on, which is the one that stood when the dialog
 * opened and becomes another only after the person has been told of it.
 */
export function useCustodyAct({ custody }: Item, time: EventTimeState, last: LastSending) {
  const sending = useSending(time, last)
  const [opened, setOpened] = useState(custody.lastEventId)
  return {
    id: sending.id,
    take: () => {
      const told = toldMeanwhile(last.error)
      const after = told === undefined ? opened : told
      if (after !== opened) {
        setOpened(after)
        sending.renew()
      }
      return { time: sending.take()?.time, id: sending.id('act'), after }
    },
  }
}
