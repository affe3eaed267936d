'use client'

import { CellField } from '#features/designs/cell-field.tsx'
import { useWords } from '#lib/words.ts'
import { CupChoice } from './cup-choice.tsx'
import { type CupDraft, type CupField, cupFields } from './cup-draft.ts'
import { useCupHeads } from './use-cup-heads.ts'
import styles from './trials.module.css'

/** A row of fields for one cup. One key, "=", takes over the last cup's recipe; Enter stores. */
export function CupFields({
  number,
  draft,
  errors,
  onDraft,
  onCopy,
}: {
  number: number
  draft: CupDraft
  errors: Readonly<Record<string, string>>
  onDraft: (draft: CupDraft) => void
  onCopy?: () => void
}) {
  const words = useWords()
  const labelOf = (field: CupField) => words('trials.fieldOf', { field: words(`trials.field.${field}`), number })
  const headOf = useCupHeads()
  const set = (field: CupField, value: string) => onDraft({ ...draft, [field]: value })
  return (
    <tr
      className={styles.open}
      onKeyDown={(event) => {
        const inRemark = (event.target as HTMLElement).getAttribute('name') === 'remark'
        if (event.key !== '=' || inRemark || onCopy === undefined) return
        event.preventDefault()
        onCopy()
      }}
    >
      <th scope="row" data-head={words('trials.cup')}>
        {number}
      </th>
      {cupFields.map((field) => (
        <td key={field} data-head={headOf(field)}>
          {field === 'consistency' || field === 'broke' ? (
            <CupChoice
              look={field}
              label={labelOf(field)}
              value={draft[field]}
              onValue={(value) => set(field, value)}
            />
          ) : (
            <CellField
              name={field}
              label={labelOf(field)}
              value={draft[field]}
              onChange={(event) => set(field, event.target.value)}
              error={errors[field]}
              short={field !== 'remark'}
              {...(field === 'remark'
                ? { inputMode: 'text' as const, style: { textAlign: 'start', width: '5rem' } }
                : {})}
              {...(field === 'temperature' ? { inputMode: 'text' as const } : {})}
            />
          )}
        </td>
      ))}
      <td />
    </tr>
  )
}
