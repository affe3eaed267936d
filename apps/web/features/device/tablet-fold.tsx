'use client'

import { useState } from 'react'
import { lazyPart } from '#components/lazy-part.tsx'
import { useWords } from '#lib/words.ts'

const TabletPart = lazyPart(() => import('./tablet-part.tsx').then(({ TabletPart: part }) => part))

/** The settings of this device, folded at the end of a screen; they load when they are opened. */
export function TabletFold() {
  const words = useWords()
  const [opened, setOpened] = useState(false)
  return (
    <details className="no-print" onToggle={(event) => setOpened(opened || event.currentTarget.open)}>
      <summary>{words('device.tablet')}</summary>
      {opened && <TabletPart />}
    </details>
  )
}
