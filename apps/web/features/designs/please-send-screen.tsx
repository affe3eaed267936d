'use client'

import type { DemandCheck, DemandRow } from '@curebook/contract/demand'
import type { Design } from '@curebook/contract/designs'
import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { Button } from '#components/button.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { halfKilogramsUp } from './demand-words.ts'
import { designQueries } from './designs.queries.ts'

/** A sheet to print or to save as PDF: what the client is asked to send for a design, how much, and in what state. */
export function PleaseSendScreen({ id }: { id: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const design = useQuery(designQueries.one(lab.id, { id }))
  return (
    <Loaded query={design} what={words('designs.theDesign')} height="32rem">
      {(found) => <Sheet design={found} />}
    </Loaded>
  )
}

function Sheet({ design }: { design: Design }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(
    design.mixes.length > 0 ? designQueries.demand(lab.id, design.id) : designQueries.usualDemand(lab.id, design.id),
  )
  return (
    <div className="stack">
      <p className="no-print">
        <Link href={`/l/${lab.short}/designs/${design.id}?tab=series`}>{design.name}</Link>
      </p>
      <PageHeading
        screen={words('designs.pleaseSend')}
        actions={
          <span className="no-print">
            <Button onClick={() => window.print()}>{words('designs.printPleaseSend')}</Button>
          </span>
        }
      />
      <dl className="facts">
        <div>
          <dt>{words('designs.pleaseSendFor')}</dt>
          <dd>
            {design.clientName}, {design.projectName}: {design.name}
          </dd>
        </div>
        <div>
          <dt>{words('designs.pleaseSendTo')}</dt>
          <dd>{[lab.name, lab.settings.address, lab.settings.contact].filter(Boolean).join(', ')}</dd>
        </div>
      </dl>
      <Loaded query={query} what={words('designs.theDemand')} height="16rem">
        {(check) => <Asked check={check} planned={design.mixes.length > 0} />}
      </Loaded>
    </div>
  )
}

function Asked({ check, planned }: { check: DemandCheck; planned: boolean }) {
  const words = useWords()
  if (check.refusal !== null) return <p>{check.refusal}</p>
  return (
    <div className="stack">
      <p>{words(planned ? 'designs.pleaseSendPlanned' : 'designs.pleaseSendUsual', { count: check.specimens })}</p>
      <ul className="stack stack-tight">
        {check.rows.map((row) => (
          <Line key={row.component} row={row} />
        ))}
      </ul>
      <section className="stack stack-tight" aria-labelledby="with-it">
        <h2 id="with-it">{words('designs.pleaseSendWith')}</h2>
        <ul>
          {(['label', 'sampling', 'certificate', 'safety', 'transport'] as const).map((key) => (
            <li key={key}>{words(`designs.pleaseSendWith.${key}`)}</li>
          ))}
        </ul>
      </section>
      <ul className="small quiet">
        {check.assumed.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </div>
  )
}

function Line({ row }: { row: DemandRow }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  return (
    <li>
      <strong>{words(`designs.demand.of.${row.component}`)}</strong>, {words('designs.pleaseSendAtLeast')}{' '}
      <strong className="nowrap">{format.quantity(halfKilogramsUp(row.neededG), 'kg')}</strong>.{' '}
      {words(`designs.pleaseSendHow.${row.component}`)}
    </li>
  )
}
