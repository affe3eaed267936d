'use client'

import { useEffect, useState } from 'react'
import { useLaboratory } from '#lib/laboratory-provider.tsx'

/** Something small kept on this device for the signed-in person. */
export function useRemembered<Value>(name: string, otherwise: Value): readonly [Value, (value: Value) => void] {
  const { me } = useLaboratory()
  const key = `curebook-schedule-${name}-${me.membershipId}`
  const [value, setValue] = useState(otherwise)
  useEffect(() => {
    try {
      const stored = localStorage.getItem(key)
      if (stored !== null) setValue(JSON.parse(stored) as Value)
    } catch {
      // A look that cannot be read is only a look: the usual one serves.
    }
  }, [key])
  return [
    value,
    (next) => {
      setValue(next)
      localStorage.setItem(key, JSON.stringify(next))
    },
  ]
}
