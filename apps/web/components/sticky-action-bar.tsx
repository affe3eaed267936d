'use client'

import type { ReactNode } from 'react'
import styles from './sticky-action-bar.module.css'

/**
 * The main acts of a bench screen in the lower half, within reach of a thumb: `<Button size="bench">` inside. `side` puts
 * them left, in the middle or right; `state` (a SaveState) stands above them.
 */
export function StickyActionBar({
  side = 'middle',
  state,
  children,
}: {
  side?: 'left' | 'middle' | 'right'
  state?: ReactNode
  children: ReactNode
}) {
  return (
    <div className={`${styles.bar} ${side === 'middle' ? '' : styles[side]}`}>
      {state !== undefined && <div className={styles.state}>{state}</div>}
      {children}
    </div>
  )
}
