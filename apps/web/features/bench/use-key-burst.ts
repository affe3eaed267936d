'use client'

import { useEffect, useRef, type RefObject } from 'react'
import { createKeyBurst } from '#lib/balance/key-burst.ts'
import { isTakenElsewhere } from './open-field.ts'

/**
 * What a balance or scanner types goes to the open field, wherever the focus stands; never while another text field has
 * it, a dialog is open, or a reading is corrected elsewhere. In the field itself it is typed as ever; `here` then says so before Enter stores it.
 */
export function useKeyBurst(
  field: RefObject<HTMLInputElement | null> | undefined,
  take: ((burst: string, here: boolean) => void) | undefined,
): void {
  const latest = useRef(take)
  useEffect(() => {
    latest.current = take
  })
  const on = take !== undefined
  useEffect(() => {
    if (!on) return undefined
    const press = createKeyBurst()
    const listen = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return
      const here = field?.current != null && event.target === field.current
      if (!here && (isTyping(event.target) || isTakenElsewhere(field?.current))) return
      const pressed = press(event.key, event.timeStamp)
      if (pressed === 'apart') return
      if (!here) {
        // No button is pressed by the spaces and the Enter of a weight, and no shortcut begins.
        event.preventDefault()
        event.stopPropagation()
      }
      if (pressed !== 'within') latest.current?.(pressed.burst, here)
    }
    window.addEventListener('keydown', listen, { capture: true })
    return () => window.removeEventListener('keydown', listen, { capture: true })
  }, [on, field])
}

function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && (target.isContentEditable || target.matches('input, select, textarea'))
}
