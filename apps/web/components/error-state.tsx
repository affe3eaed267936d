'use client'

import { ApiProblem } from '#lib/api-problem.ts'
import { useWords } from '#lib/words.ts'
import { Button } from './button.tsx'
import { Icon } from './icon.tsx'
import styles from './message-box.module.css'

/** A load that failed: what failed (`what`: "the ledger"), why, and Retry. Never an endless wait. */
export function ErrorState({ what, error, onRetry }: { what: string; error: unknown; onRetry?: () => void }) {
  const words = useWords()
  const why = error instanceof ApiProblem ? error.message : words('common.unexpected')
  return (
    <div className={`${styles.box} ${styles.failed}`} role="alert">
      <p className="strong row">
        <Icon name="warning" /> {words('common.loadFailed', { what })}
      </p>
      <p>{why}</p>
      {onRetry !== undefined && <Button onClick={onRetry}>{words('common.retry')}</Button>}
    </div>
  )
}
