'use client'

import { ApiProblem } from '#lib/api-problem.ts'
import { useWords } from '#lib/words.ts'
import { Button, ButtonLink } from './button.tsx'
import { Icon } from './icon.tsx'
import styles from './message-box.module.css'

/** What no second try changes: it is for another role, or it is not there. */
const refusals: Readonly<Record<number, 'common.notForRole' | 'common.notFound'>> = {
  403: 'common.notForRole',
  404: 'common.notFound',
}

/** A load that failed: what failed (`what`: "the ledger"), why, and Retry, or the way home where Retry is of no use. Never an endless wait. */
export function ErrorState({ what, error, onRetry }: { what: string; error: unknown; onRetry?: () => void }) {
  const words = useWords()
  const refused = error instanceof ApiProblem ? refusals[error.status] : undefined
  if (refused !== undefined && error instanceof ApiProblem)
    return (
      <div className={styles.box} role="alert">
        <p className="strong">{words(refused, { what })}</p>
        <p>{error.message}</p>
        <ButtonLink href="/">{words('common.toFirstScreen')}</ButtonLink>
      </div>
    )
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
