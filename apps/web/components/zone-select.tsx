'use client'

import { useEffect, useState } from 'react'
import type { FieldProps } from './field-frame.tsx'
import { Select } from './select.tsx'

/** Time zones as the device knows them; the device's own is chosen first. */
export function ZoneSelect({ initial, ...field }: FieldProps & { initial?: string }) {
  const [zones, setZones] = useState<readonly string[]>(initial === undefined ? [] : [initial])
  const [chosen, setChosen] = useState(initial ?? '')
  useEffect(() => {
    const own = Intl.DateTimeFormat().resolvedOptions().timeZone
    setZones(
      [
        ...new Set([...(initial === undefined ? [own] : [initial]), ...Intl.supportedValuesOf('timeZone'), 'UTC']),
      ].sort(),
    )
    setChosen((before) => (before === '' ? own : before))
  }, [initial])
  return (
    <Select
      {...field}
      options={zones.map((zone) => ({ value: zone, label: zone.replaceAll('_', ' ') }))}
      value={chosen}
      onChange={(event) => setChosen(event.target.value)}
    />
  )
}
