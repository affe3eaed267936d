'use client'

import type { ReactNode } from 'react'
import type { Hand } from '#lib/tablet/tablet-settings.ts'
import { useTabletSettings } from '#lib/tablet/use-tablet-settings.ts'
import styles from './sticky-action-bar.module.css'

/**
 * The main acts of a bench screen in the lower half, within reach of a thumb: `<Button size="bench">` inside, left, in the
 * middle or right as this device is set, unless `side` says otherwise; `state` (a SaveState) stands above them.
 */
export function StickyActionBar({ side, state, children }: { side?: Hand; state?: ReactNode; children: ReactNode }) {
  const [{ hand }] = useTabletSettings()
  const stands = side ?? hand
  return (
    <div className={`${styles.bar} ${stands === 'middle' ? '' : styles[stands]}`} data-hand={stands}>
      {state !== undefined && <div className={styles.state}>{state}</div>}
      {children}
    </div>
  )
}
