'use client'

import type { ReactNode } from 'react'
import { useWords } from '#lib/words.ts'
import { Icon } from './icon.tsx'
import styles from './chip.module.css'

/** A filter that is on, or a small fact; with `onRemove` it can be taken off. `name` is what is taken off, in words. */
export function Chip({ children, name, onRemove }: { children: ReactNode; name?: string; onRemove?: () => void }) {
  const words = useWords()
  return (
    <span className={styles.chip}>
      {children}
      {onRemove !== undefined && (
        <button
          type="button"
          onClick={onRemove}
          aria-label={words('common.remove', { name: name ?? String(children) })}
        >
          <Icon name="cross" size="0.75em" />
        </button>
      )}
    </span>
  )
}
