'use client'

import type { ReactNode, Ref } from 'react'
import { justifyOf } from '#lib/tablet/hand.ts'
import { useTabletSettings } from '#lib/tablet/use-tablet-settings.ts'

/** A row of main buttons within a form or at the end of a screen, on the side on which this device is held. */
export function MainActs({ children, ref }: { children: ReactNode; ref?: Ref<HTMLDivElement> }) {
  const [{ hand }] = useTabletSettings()
  return (
    <div className="row" ref={ref} data-hand={hand} style={{ justifyContent: justifyOf(hand) }}>
      {children}
    </div>
  )
}
