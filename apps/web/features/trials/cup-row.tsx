'use client'

import type { TrialCup } from '@curebook/contract/trials'
import { Button } from '#components/button.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { useLookWords } from './cup-choice.tsx'
import { cupFields, isWord } from './cup-draft.ts'
import { useCupHeads } from './use-cup-heads.ts'
import styles from './trials.module.css'

/** Where it is said why no cup becomes the base any more. */
export const sharesStandAt = 'shares-stand'

/** A stored cup, as typed, with what its mix time is worth. */
export function CupRow({
  cup,
  isBase,
  waits = false,
  sharesStand = false,
  onOpen,
  onUse,
}: {
  cup: TrialCup
  isBase: boolean
  /** Something typed into it is not stored yet. */
  waits?: boolean
  /** A batch of the series is begun: its shares stand, and no cup becomes the base. */
  sharesStand?: boolean
  onOpen?: () => void
  onUse?: () => void
}) {
  const words = useWords()
  const looks = useLookWords()
  const headOf = useCupHeads()
  const { digits } = useLaboratoryFormat()
  // As typed where it is a plain number; what was read where a unit was typed with it.
  const shown = (pair: { typed: string; value: string } | null) =>
    pair === null ? '' : digits(/^\d+([.,]\d+)?$/.test(pair.typed) ? pair.typed.replace(',', '.') : pair.value)
  const said = {
    consistency: cup.consistency === null ? '' : looks.consistency(cup.consistency),
    broke: cup.broke === null ? '' : looks.broke(cup.broke),
    remark: cup.remark,
  }
  return (
    <tr>
      <th scope="row" data-head={words('trials.cup')}>
        {cup.number}
        {isBase && <span className={styles.base}>{words('trials.isBase')}</span>}
        {waits && <span className={styles.base}>{words('trials.waits')}</span>}
      </th>
      {cupFields.map((field) => (
        <td key={field} data-head={headOf(field)} className={isWord(field) ? styles.remark : styles.figure}>
          {isWord(field) ? said[field] : shown(cup[field])}
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
            <Button
              size="small"
              onClick={onUse}
              disabled={sharesStand}
              aria-describedby={sharesStand ? sharesStandAt : undefined}
              aria-label={words('trials.useCup', { number: cup.number })}
            >
              {words('trials.use')}
            </Button>
          )}
        </span>
      </td>
    </tr>
  )
}
