'use client'

import { useWords } from '#lib/words.ts'
import styles from './skeleton.module.css'

/** Stands for a block of content that is being fetched, of its final height; shows itself only after a moment. */
export function Skeleton({ height, what }: { height: string; what: string }) {
  const words = useWords()
  return (
    <div role="status">
      <span className="sr-only">{words('common.loading', { what })}</span>
      <div className={styles.block} style={{ height }} aria-hidden="true" />
    </div>
  )
}
