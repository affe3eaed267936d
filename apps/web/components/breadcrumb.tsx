'use client'

import Link from 'next/link'
import { useWords } from '#lib/words.ts'
import styles from './breadcrumb.module.css'

/** Where this page hangs; the page itself is not repeated. */
export function Breadcrumb({ trail }: { trail: readonly { readonly href: string; readonly label: string }[] }) {
  const words = useWords()
  return (
    <nav className={styles.trail} aria-label={words('common.breadcrumb')}>
      <ol>
        {trail.map(({ href, label }) => (
          <li key={href}>
            <Link href={href}>{label}</Link>
          </li>
        ))}
      </ol>
    </nav>
  )
}
