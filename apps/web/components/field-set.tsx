import type { ReactNode } from 'react'
import styles from './field.module.css'

/** Fields that belong together, framed and named. Disabled as a whole while a form is being saved. */
export function FieldSet({
  legend,
  disabled,
  children,
}: {
  legend: ReactNode
  disabled?: boolean
  children: ReactNode
}) {
  return (
    <fieldset className={`${styles.group} ${styles.framed}`} disabled={disabled}>
      <legend className={styles.legend}>{legend}</legend>
      <div className="stack">{children}</div>
    </fieldset>
  )
}
