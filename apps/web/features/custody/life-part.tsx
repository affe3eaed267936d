'use client'

import type { CustodyEvent, Item } from '@curebook/contract/custody'
import type { ReactNode } from 'react'
import { DataTable, type Column } from '#components/data-table.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { CustodianText } from './custodian-text.tsx'

/** The chain of custody, link by link, as told: when, from whom to whom, by whom, what was seen and weighed, and why. */
export function LifePart({ item }: { item: Item }) {
  const words = useWords()
  const columns: readonly Column<CustodyEvent>[] = [
    {
      key: 'at',
      head: words('custody.when'),
      cell: ({ eventAt, eventFrom }) => (
        <>
          <TimeText at={eventAt} />
          {eventFrom !== 'now' && <div className="quiet small">{words(`custody.told.${eventFrom}`)}</div>}
        </>
      ),
    },
    {
      key: 'what',
      head: words('custody.what'),
      cell: ({ kind, superseded, correction }) =>
        superseded ? (
          <s>{words(`custody.act.${kind}`)}</s>
        ) : (
          words(correction === null ? `custody.act.${kind}` : 'custody.receipt.right')
        ),
    },
    { key: 'from', head: words('custody.fromHead'), cell: ({ from }) => from && <CustodianText custodian={from} /> },
    { key: 'to', head: words('custody.toHead'), cell: ({ to }) => to && <CustodianText custodian={to} /> },
    { key: 'by', head: words('custody.by'), cell: ({ by }) => <span className="nowrap">{by.name}</span> },
    {
      key: 'seen',
      head: words('custody.seen'),
      cell: (event) => (
        <Struck event={event}>
          <Seen event={event} />
        </Struck>
      ),
    },
    {
      key: 'mass',
      head: words('custody.massAfter'),
      unit: 'g',
      number: true,
      cell: (event) =>
        event.massG && (
          <Struck event={event}>
            <QuantityText digits={event.massG} />
          </Struck>
        ),
    },
    {
      key: 'note',
      head: words('custody.words'),
      cell: ({ signedFor, note, timeNote, correction }) =>
        [correction, signedFor && words('custody.signedBy', { name: signedFor }), note, timeNote]
          .filter(Boolean)
          .join(' · '),
    },
  ]
  return (
    <section className="stack" aria-labelledby="life">
      <h2 id="life">{words('custody.life')}</h2>
      <DataTable
        caption={words('custody.lifeOf', { code: item.code })}
        captionHidden
        columns={columns}
        rows={item.life}
        idOf={({ id }) => id}
        sortParam="life"
        empty={<p>{words('custody.noLife')}</p>}
      />
    </section>
  )
}

/** What another link stands in the place of. */
function Struck({ event, children }: { event: CustodyEvent; children: ReactNode }) {
  return event.superseded ? <s>{children}</s> : <>{children}</>
}

function Seen({ event }: { event: CustodyEvent }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const { condition, sealIntact, temperatureC, lossG, weighedTyped, massTyped } = event
  const parts = [
    condition && words(`custody.condition.${condition}`),
    sealIntact !== null && words(sealIntact ? 'custody.sealIntact' : 'custody.sealBroken'),
    temperatureC && format.quantity(temperatureC, '°C'),
    weighedTyped && words('custody.weighedOf', { mass: weighedTyped }),
    // The column shows grams: what was typed in another unit stands beside it.
    massTyped && /[a-z]/i.test(massTyped) && words('custody.typedOf', { mass: massTyped }),
    lossG && lossG !== '0' && words('custody.lossOf', { mass: format.quantity(lossG, 'g') }),
  ]
  return <>{parts.filter(Boolean).join(', ')}</>
}
