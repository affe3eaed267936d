'use client'

import { useWords } from '#lib/words.ts'
import { Icon, type IconName } from './icon.tsx'
import styles from './status-mark.module.css'

export type StatusTone = 'settled' | 'now' | 'closing' | 'lost' | 'waiting'

/** Word, shape and colour of every status; a screen adds none of its own. Words: messages `status.*`. */
const statuses = {
  pass: ['settled', 'tick'],
  fail: ['lost', 'cross'],
  undecided: ['closing', 'half'],
  'not-tested': ['waiting', 'ring'],
  'no-limit': ['waiting', 'bar'],
  planned: ['waiting', 'ring'],
  waiting: ['waiting', 'clock'],
  'opens-later': ['waiting', 'clock'],
  'any-time': ['waiting', 'ring'],
  due: ['now', 'bolt'],
  running: ['now', 'half'],
  closing: ['closing', 'clock'],
  late: ['lost', 'warning'],
  missed: ['lost', 'cross'],
  early: ['lost', 'warning'],
  done: ['settled', 'tick'],
  met: ['settled', 'tick'],
  void: ['lost', 'struck'],
  refused: ['lost', 'cross'],
  superseded: ['waiting', 'struck'],
  open: ['now', 'ring'],
  decided: ['settled', 'tick'],
  draft: ['waiting', 'ring'],
  'in-work': ['now', 'half'],
  'in-review': ['closing', 'half'],
  submitted: ['now', 'half'],
  checked: ['settled', 'half'],
  approved: ['settled', 'tick'],
  'sent-back': ['closing', 'warning'],
  current: ['settled', 'disc'],
  ended: ['waiting', 'bar'],
  queued: ['closing', 'cloud'],
  stored: ['settled', 'tick'],
  'in-service': ['settled', 'tick'],
  out: ['lost', 'struck'],
  agrees: ['settled', 'tick'],
  differs: ['lost', 'cross'],
} as const satisfies Record<string, readonly [StatusTone, IconName]>

export type Status = keyof typeof statuses

/** A status as word, shape and colour. `children` replaces the word where the case wants a fuller one. */
export function StatusMark({ status, children }: { status: Status; children?: string }) {
  const words = useWords()
  const [tone, icon] = statuses[status]
  return (
    <span className={`${styles.mark} ${styles[tone]}`} data-status={status}>
      <Icon name={icon} />
      {children ?? words(`status.${status}`)}
    </span>
  )
}
