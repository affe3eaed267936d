'use client'

import { useCallback, useEffect, useRef } from 'react'

const REST_MS = 1_000

/** A second tap within a second does nothing: wet fingers bounce. What was entered in between makes it another act. */
export function useSingleAct<Arguments extends unknown[]>(
  act: ((...given: Arguments) => void) | undefined,
): (...given: Arguments) => boolean {
  const last = useRef(-REST_MS)
  useEffect(() => {
    const forget = () => {
      last.current = -REST_MS
    }
    document.addEventListener('input', forget)
    return () => document.removeEventListener('input', forget)
  }, [])
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
