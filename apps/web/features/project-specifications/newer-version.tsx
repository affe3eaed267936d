'use client'

import type { ProjectSpecifications } from '@curebook/contract/project-specifications'
import { Button } from '#components/button.tsx'
import { TimeText } from '#components/time-text.tsx'
import { ChangeList } from '#features/specifications/change-list.tsx'
import { useWords } from '#lib/words.ts'
import { SpecificationLink } from './specification-link.tsx'

/** A newer version of what the project stands on: why it was made, what it changes, and that nothing follows it by itself. */
export function NewerVersion({
  told: { items, newer },
  onSet,
}: {
  told: Pick<ProjectSpecifications, 'items' | 'newer'>
  /** Absent for whoever may not set it. */
  onSet?: (id: string) => void
}) {
  const words = useWords()
  const [stands] = items
  if (newer === null || stands === undefined) return null
  return (
    <div className="caution stack stack-tight" role="note">
      <p>
        <strong>{words('projectSpecification.newer')}</strong> <SpecificationLink of={newer} />,{' '}
        <TimeText at={newer.at} look="day" />
        {newer.by !== null && `, ${newer.by.name}`}
        {newer.reason !== null && `: ${newer.reason}`}
      </p>
      <p>{words('projectSpecification.newerKept', { version: stands.specification.version })}</p>
      {newer.changes.length > 0 && (
        <details>
          <summary>{words('projectSpecification.newerChanges', { count: newer.changes.length })}</summary>
          <ChangeList changes={newer.changes} />
        </details>
      )}
      {onSet !== undefined && (
        <div className="row no-print">
          <Button size="small" tone="main" onClick={() => onSet(newer.id)}>
            {words('projectSpecification.takeOver', { version: newer.version })}
          </Button>
        </div>
      )}
    </div>
  )
}
