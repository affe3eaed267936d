'use client'

import { useRef } from 'react'
import { useOutbox } from '#lib/outbox/outbox-provider.tsx'

/**
 * What was pressed in one dialog: the next press takes the place of those before it that were refused and stand on the device
 * still, since something waits behind them.
 * @returns the refused ones, for the id of what is pressed now
 */
export function usePressed(): (id: string) => readonly string[] {
  const { stateOf } = useOutbox()
  const pressed = useRef<readonly string[]>([])
  return (id) => {
    const refused = pressed.current.filter((before) => stateOf(before) === 'refused')
    pressed.current = [...refused, id]
    return refused
  }
}
