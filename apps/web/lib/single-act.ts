'use client'

import { useCallback, useRef } from 'react'

const REST_MS = 1_000

/** A second tap within a second does nothing: wet fingers bounce. */
export function useSingleAct<Arguments extends unknown[]>(
  act: ((...given: Arguments) => void) | undefined,
): (...given: Arguments) => boolean {
  const last = useRef(-REST_MS)
  return useCallback(
    (...given: Arguments) => {
      if (performance.now() - last.current < REST_MS) return false
      last.current = performance.now()
      act?.(...given)
      return true
    },
    [act],
  )
}
