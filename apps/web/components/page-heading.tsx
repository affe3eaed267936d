'use client'

import type { ReactNode } from 'react'
import { useWords } from '#lib/words.ts'
import styles from './page-heading.module.css'

/**
 * The one h1 of a page, and the page's title: "thing – screen – Curebook". `screen` is the screen's name; `thing`, where
 * the page shows one thing, is its name and becomes the h1. `failed` puts "Error:" before the title.
 */
export function PageHeading({
  screen,
  thing,
  under,
  actions,
  failed = false,
}: {
  screen: string
  thing?: string
  under?: ReactNode
  actions?: ReactNode
  failed?: boolean
}) {
  const words = useWords()
  const title = [thing, screen, words('common.site')].filter((part) => part !== undefined && part !== '').join(' – ')
  return (
    <div className={styles.heading}>
      <title>{failed ? words('common.errorTitle', { title }) : title}</title>
      <div>
        <h1>{thing ?? screen}</h1>
        {under !== undefined && <div className={styles.under}>{under}</div>}
      </div>
      {actions !== undefined && <div className="row no-print">{actions}</div>}
    </div>
  )
}
