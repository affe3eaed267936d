'use client'

import type { LedgerEntryView } from '@curebook/contract/ledger'
import { Dialog } from '#components/dialog.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useWords } from '#lib/words.ts'
import { Act } from './act.tsx'
import { subjectWords } from './acts.ts'
import styles from './ledger.module.css'

/** One entry as it stands: what was recorded, its digest, and its place in the chain. */
export function EntryDialog({ entry, onClose }: { entry: LedgerEntryView; onClose: () => void }) {
  const words = useWords()
  return (
    <Dialog
      title={words('ledger.entryTitle', { number: entry.seq ?? words('ledger.unsealed') })}
      onClose={onClose}
      wide
    >
      <dl className="facts">
        <div>
          <dt>{words('ledger.time')}</dt>
          <dd>
            <TimeText at={entry.at} />
          </dd>
        </div>
        <div>
          <dt>{words('ledger.who')}</dt>
          <dd>{entry.actor?.name ?? words(`ledger.actor.${entry.actorKind}`)}</dd>
        </div>
        <div>
          <dt>{words('ledger.action')}</dt>
          <dd>
            <Act action={entry.action} /> <span className={styles.hash}>{entry.action}</span>
          </dd>
        </div>
        <div>
          <dt>{words('ledger.subject')}</dt>
          <dd>
            {subjectWords(entry.subjectKind)} <span className={styles.hash}>{entry.subjectId}</span>
          </dd>
        </div>
      </dl>
      <h3>{words('ledger.content')}</h3>
      <pre className={styles.content} tabIndex={0} aria-label={words('ledger.content')}>
        {readable(entry.content)}
      </pre>
      <dl className="stack stack-tight">
        <div>
          <dt className="quiet small">{words('ledger.digest')}</dt>
          <dd className={styles.hash}>{entry.digest}</dd>
        </div>
        <div>
          <dt className="quiet small">{words('ledger.hash')}</dt>
          <dd className={styles.hash}>{entry.hash ?? words('ledger.unsealedLong')}</dd>
        </div>
      </dl>
    </Dialog>
  )
}

/** The canonical text laid out for reading; numbers in it are texts, so nothing is altered by it. */
function readable(content: string): string {
  try {
    return JSON.stringify(JSON.parse(content), undefined, 2)
  } catch {
    return content
  }
}
