'use client'

import type { Design } from '@curebook/contract/designs'
import Link from 'next/link'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { isNewest, mayChange } from './design-state.ts'
import { EditDesignDialog } from './edit-design-dialog.tsx'
import { EnteredPart } from './entered-part.tsx'
import { SamplesPart } from './samples-part.tsx'
import { SpecificationPart } from './specification-part.tsx'

/** What the design stands on: entered values, samples, specification, revisions. */
export function OverviewTab({ design }: { design: Design }) {
  const words = useWords()
  const lab = useLaboratory()
  const [editing, setEditing] = useState(false)
  return (
    <div className="stack stack-wide">
      {mayChange(design) && lab.may('design:update') && (
        <div className="row row-end no-print">
          <Button onClick={() => setEditing(true)}>{words('designs.edit')}</Button>
        </div>
      )}
      <EnteredPart design={design} />
      <SamplesPart design={design} />
      <SpecificationPart design={design} />
      <RevisionsPart design={design} />
      {editing && <EditDesignDialog design={design} onClose={() => setEditing(false)} />}
    </div>
  )
}

function RevisionsPart({ design }: { design: Design }) {
  const words = useWords()
  const lab = useLaboratory()
  const ordered = [...design.revisions].sort((a, b) => b.number - a.number)
  return (
    <section className="stack stack-tight" aria-labelledby="revisions">
      <h2 id="revisions">{words('designs.revisions')}</h2>
      <ul className="plain-list stack stack-tight">
        {ordered.map(({ id, number, state }) => (
          <li key={id} className="row">
            <Link
              href={`/l/${lab.short}/designs/${design.id}?revision=${number}`}
              aria-current={number === design.revision ? 'page' : undefined}
            >
              {words('designs.revisionNumber', { number })}
            </Link>
            <StatusMark status={state}>{words(`designs.state.${state}`)}</StatusMark>
          </li>
        ))}
      </ul>
      {design.state === 'approved' && isNewest(design) && <p className="quiet">{words('designs.revisionAbout')}</p>}
    </section>
  )
}
