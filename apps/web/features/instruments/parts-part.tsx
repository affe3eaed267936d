'use client'

import type { Instrument } from '@curebook/contract/instruments'
import { partsOfMachine, type PartKind } from '@curebook/contract/machine-parts'
import type { PartFitting } from '@curebook/contract/parts'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { Loaded } from '#components/loaded.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { FitPartDialog } from './fit-part-dialog.tsx'
import { upkeepQueries } from './upkeep.queries.ts'

type Fitting = { readonly kind: PartKind; readonly supersedes: PartFitting | undefined }

/** Lots of the parts that wear: what is on the machine now, and what was before. */
export function PartsPart({ instrument }: { instrument: Instrument }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(upkeepQueries.parts(lab.id, instrument.id))
  const [fitting, setFitting] = useState<Fitting>()
  return (
    <section className="stack stack-tight" aria-labelledby="parts">
      <h2 id="parts">{words('instruments.parts')}</h2>
      <p className="quiet prose">{words('instruments.partsAbout')}</p>
      <Loaded query={query} what={words('instruments.theseParts')} height="8rem">
        {({ items }) => (
          <>
            {(partsOfMachine[instrument.kind] ?? []).map((kind) => (
              <OnNow
                key={kind}
                kind={kind}
                fitting={items.find((item) => item.kind === kind && !item.superseded)}
                onFit={() => setFitting({ kind, supersedes: undefined })}
              />
            ))}
            {items.length > 0 && (
              <Fittings items={items} onCorrect={(item) => setFitting({ kind: item.kind, supersedes: item })} />
            )}
          </>
        )}
      </Loaded>
      {fitting !== undefined && (
        <FitPartDialog instrument={instrument} {...fitting} onClose={() => setFitting(undefined)} />
      )}
    </section>
  )
}

function OnNow({ kind, fitting, onFit }: { kind: PartKind; fitting: PartFitting | undefined; onFit: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  return (
    <div className="row">
      <p>
        {fitting === undefined ? (
          words(`instruments.partNone.${kind}`)
        ) : (
          <>
            <strong>{words(`instruments.partOn.${kind}`, { lot: fitting.lot })}</strong>,{' '}
            {words('instruments.fittedSince')} <TimeText at={fitting.fittedAt} look="short" />
          </>
        )}
      </p>
      {lab.may('instrument:fit-part') && <Button onClick={onFit}>{words(`instruments.fit.${kind}`)}</Button>}
    </div>
  )
}

function Fittings({ items, onCorrect }: { items: readonly PartFitting[]; onCorrect: (fitting: PartFitting) => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const columns: readonly Column<PartFitting>[] = [
    {
      key: 'lot',
      head: words('instruments.lot'),
      cell: ({ kind, lot, superseded }) => {
        const name = words('instruments.lotOf', { kind: words(`instruments.partKind.${kind}`), lot })
        return superseded ? <s>{name}</s> : name
      },
    },
    { key: 'hardness', head: words('instruments.hardness'), number: true, cell: ({ hardness }) => hardness },
    {
      key: 'on',
      head: words('instruments.fittedAt'),
      sort: ({ fittedAt }) => fittedAt,
      cell: ({ fittedAt }) => <TimeText at={fittedAt} look="short" />,
    },
    {
      key: 'off',
      head: words('instruments.takenOffAt'),
      cell: ({ takenOffAt, superseded }) =>
        superseded ? (
          words('instruments.enteredWrong')
        ) : takenOffAt === null ? (
          words('instruments.onNow')
        ) : (
          <TimeText at={takenOffAt} look="short" />
        ),
    },
    { key: 'by', head: words('instruments.enteredBy'), cell: ({ by }) => by.name },
    {
      key: 'note',
      head: words('instruments.remark'),
      cell: ({ note, supersedes }) =>
        [note, supersedes && words('instruments.correctedFor', { reason: supersedes.reason })]
          .filter(Boolean)
          .join('; '),
    },
    ...(lab.may('instrument:fit-part')
      ? [
          {
            key: 'correct',
            head: words('instruments.correct'),
            cell: (item: PartFitting) =>
              !item.superseded && (
                <Button
                  tone="quiet"
                  onClick={() => onCorrect(item)}
                  aria-label={words('instruments.correctLot', { lot: item.lot })}
                >
                  {words('instruments.correct')}
                </Button>
              ),
          },
        ]
      : []),
  ]
  return (
    <DataTable
      caption={words('instruments.partsHistory')}
      columns={columns}
      rows={items}
      idOf={({ id }) => id}
      sortParam="parts"
      empty={null}
    />
  )
}
