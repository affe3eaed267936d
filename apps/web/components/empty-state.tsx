import type { ReactNode } from 'react'
import styles from './message-box.module.css'

/** What would be here, and one next act. With filters on, say "no match" and give Clear filters as the act. */
export function EmptyState({
  title,
  children,
  action,
}: {
  title: ReactNode
  children?: ReactNode
  action?: ReactNode
}) {
  return (
    <div className={styles.box}>
      <p className="strong">{title}</p>
      {children !== undefined && <div className="quiet">{children}</div>}
      {action}
    </div>
  )
}
