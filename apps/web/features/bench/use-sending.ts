'use client'

import { useState } from 'react'
import { newId } from '#lib/new-id.ts'
import { createSending, type LastSending, type Sending } from '#lib/sending.ts'
import type { EventTimeState } from './use-event-time.ts'

type Taken = NonNullable<ReturnType<EventTimeState['take']>>

/**
 * An act with its time and its ids, the same each time it is sent until the person changes the time. `last` is the mutation
 * that sends it.
 */
export function useSending(
  time: EventTimeState,
  last: LastSending,
): Omit<Sending<Taken>, 'take'> & { readonly take: () => Taken | undefined } {
  const [sending] = useState(() => createSending<Taken>(newId))
  return {
    id: sending.id,
    renew: sending.renew,
    take: () => sending.take(JSON.stringify([time.choice, time.word]), last, time.take),
  }
}
