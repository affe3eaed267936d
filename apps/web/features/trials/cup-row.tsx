'use client'

import type { TrialCup } from '@curebook/contract/trials'
import { Button } from '#components/button.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { cupFields } from './cup-draft.ts'
import styles from './trials.module.css'

/** A stored cup, as typed, with what its mix time is worth. */
export function CupRow({
  cup,
  isBase,
  waits = false,
  onOpen,
  onUse,
}: {
  cup: TrialCup
  isBase: boolean
  /** Something typed into it is not stored yet. */
  waits?: boolean
  onOpen?: () => void
  onUse?: () => void
}) {
  const words = useWords()
  const { digits } = useLaboratoryFormat()
  // As typed where it is a plain number; what was read where a unit was typed with it.
  const shown = (pair: { typed: string; value: string } | null) =>
    pair === null ? '' : digits(/^\d+([.,]\d+)?$/.test(pair.typed) ? pair.typed.replace(',', '.') : pair.value)
  return (
    <tr>
      <th scope="row">
        {cup.number}
        {isBase && <span className={styles.base}>{words('trials.isBase')}</span>}
        {waits && <span className={styles.base}>{words('trials.waits')}</span>}
      </th>
      {cupFields.map((field) => (
        <td key={field} className={field === 'remark' ? styles.remark : styles.figure}>
          {field === 'remark' ? cup.remark : shown(cup[field])}
          {field === 'mixTime' && cup.meets !== null && (
            <span className={styles.mark} title={cup.meets.sentence}>
              <StatusMark status={cup.meets.verdict}>{words(`trials.meets.${cup.meets.verdict}`)}</StatusMark>
            </span>
          )}
          {field === 'remark' && cup.supersedes !== null && (
            <span className="small quiet"> {words('trials.changed', { reason: cup.supersedes.reason })}</span>
          )}
        </td>
      ))}
      <td>
        <span className={`row ${styles.acts} no-print`}>
          {onOpen !== undefined && (
            <Button size="small" onClick={onOpen} aria-label={words('trials.openCup', { number: cup.number })}>
              {words('trials.open')}
            </Button>
          )}
          {onUse !== undefined && (
            <Button size="small" onClick={onUse} aria-label={words('trials.useCup', { number: cup.number })}>
              {words('trials.use')}
            </Button>
          )}
        </span>
      </td>
    </tr>
  )
}
