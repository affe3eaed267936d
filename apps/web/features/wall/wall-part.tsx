import { useId, type ReactNode } from 'react'
import styles from './wall.module.css'

/** A heading with its rows, or the sentence that there are none. */
export function Part({ title, empty, children }: { title: string; empty: string | null; children: ReactNode }) {
  const id = useId()
  return (
    <section className={styles.part} aria-labelledby={id}>
      <h2 id={id}>{title}</h2>
      {empty === null ? <ul className={styles.rows}>{children}</ul> : <p className={styles.empty}>{empty}</p>}
    </section>
  )
}

/** What did not fit, counted. */
export function More({ children }: { children: ReactNode }) {
  return children ? <li className={styles.more}>{children}</li> : null
}
