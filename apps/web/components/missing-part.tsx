'use client'

import { useWords } from '#lib/words.ts'
import { Button } from './button.tsx'
import styles from './message-box.module.css'

/** In the place of a part of the screen that is not on this device while the server cannot be reached. */
export function MissingPart({ onRetry, onClose }: { onRetry: () => void; onClose?: (() => void) | undefined }) {
  const words = useWords()
  return (
    <div className={`${styles.box} ${styles.failed} ${onClose === undefined ? '' : styles.afloat}`} role="alert">
      <p>{words('common.partMissing')}</p>
      <div className="row">
        <Button size="bench" autoFocus={onClose !== undefined} onClick={onRetry}>
          {words('common.retry')}
        </Button>
        {onClose !== undefined && (
          <Button size="bench" tone="quiet" onClick={onClose}>
            {words('common.close')}
          </Button>
        )}
      </div>
    </div>
  )
}
