'use client'

import type { Gradation, Sieve } from '@curebook/contract/gradations'
import { gradationWords } from '@curebook/contract/panel-result-words'
import type { GradationCheck } from '@curebook/contract/range'
import type { ReactNode } from 'react'
import { DataTable, type Column } from '#components/data-table.tsx'
import { DayText } from '#components/time-text.tsx'
import { AttachmentLink } from '#features/attachments/attachment-link.tsx'
import { useWords } from '#lib/words.ts'
import { GradationCheckTable } from './gradation-check-table.tsx'

/**
 * The gradation as it was entered, with where it comes from, and against the specification where that holds a band; `act`
 * enters or replaces it.
 */
export function GradationPart({
  gradation,
  check = null,
  act,
}: {
  gradation: Gradation | null
  check?: GradationCheck | null
  act?: ReactNode
}) {
  const words = useWords()
  const columns: readonly Column<Sieve>[] = [
    { key: 'size', head: words('range.sieve'), unit: 'mm', number: true, cell: ({ size }) => size },
    { key: 'passing', head: words('range.passing'), unit: '%', number: true, cell: ({ passing }) => passing },
  ]
  return (
    <section className="stack stack-tight" aria-labelledby="gradation">
      <h2 id="gradation">{words('range.gradation')}</h2>
      {gradation === null && <p>{words('range.noGradation')}</p>}
      {gradation !== null && (
        <>
          {gradation.sieves.length > 0 && (
            <DataTable
              caption={words('range.gradation')}
              captionHidden
              columns={columns}
              rows={gradation.sieves}
              idOf={({ size }) => size}
              sortParam="sieves"
              empty={null}
            />
          )}
          <p className="small strong">{words('range.enteredMark')}</p>
          <p className="small">
            {gradationWords({ ...gradation, attachment: null })}, {words('range.foundOn')}{' '}
            <DayText day={gradation.observedOn} />. {words('range.enteredBy', { name: gradation.by.name })}
          </p>
          {gradation.supersedes !== null && (
            <p className="small">
              {words('range.replacedValue', {
                value: gradation.supersedes.sieves.map(({ size, passing }) => `${size} mm ${passing} %`).join(', '),
                reason: gradation.supersedes.reason,
              })}
            </p>
          )}
          {gradation.attachment !== null && <AttachmentLink file={gradation.attachment} />}
        </>
      )}
      {check !== null && <GradationCheckTable check={check} />}
      {act}
    </section>
  )
}
