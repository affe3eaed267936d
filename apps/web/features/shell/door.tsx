'use client'

import type { ReactNode } from 'react'
import { useWords } from '#lib/words.ts'
import { BrandMark } from './brand-mark.tsx'
import { ThemeChoice } from './theme-choice.tsx'
import styles from './shell.module.css'

/** The frame of pages outside a laboratory: sign-in, invitation, first run, choosing a laboratory. */
export function Door({ wide = false, children }: { wide?: boolean; children: ReactNode }) {
  const words = useWords()
  return (
    <div className={`${styles.door} ${wide ? styles.wideDoor : ''}`}>
      <header className={styles.doorHead}>
        <span className={styles.brand}>
          <BrandMark size={36} />
          <span>
            {words('common.site')}
            <small>{words('shell.tagline')}</small>
          </span>
        </span>
        <ThemeChoice />
      </header>
      <main>{children}</main>
    </div>
  )
}
