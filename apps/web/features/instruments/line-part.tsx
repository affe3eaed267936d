'use client'

import type { InstrumentLine } from '@curebook/contract/instrument-lines'
import type { Instrument } from '@curebook/contract/instruments'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { LineDialog } from './line-dialog.tsx'
import { upkeepQueries } from './upkeep.queries.ts'

/** How a balance sends: what stands, and what was entered before. The bench reads its lines by it. */
export function LinePart({ instrument }: { instrument: Instrument }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(upkeepQueries.lines(lab.id, instrument.id))
  const [setting, setSetting] = useState(false)
  return (
    <section className="stack stack-tight" aria-labelledby="lines">
      <h2 id="lines">{words('instruments.lines')}</h2>
      <p className="quiet prose">{words('instruments.linesAbout')}</p>
      <Loaded query={query} what={words('instruments.theseLines')} height="8rem">
        {({ items }) => {
          const stands = items.find(({ superseded }) => !superseded)
          const act = lab.may('instrument:set-line') && (
            <Button onClick={() => setSetting(true)}>
              {words(stands === undefined ? 'instruments.setLine' : 'instruments.changeLine')}
            </Button>
          )
          return (
            <>
              <Lines items={items} act={act} />
              {setting && <LineDialog instrument={instrument} stands={stands} onClose={() => setSetting(false)} />}
            </>
          )
        }}
      </Loaded>
    </section>
  )
}

function Lines({ items, act }: { items: readonly InstrumentLine[]; act: React.ReactNode }) {
  const words = useWords()
  const columns: readonly Column<InstrumentLine>[] = [
    {
      key: 'example',
      head: words('instruments.lineExample'),
      cell: ({ example, superseded }) => {
        const line = <code style={{ whiteSpace: 'pre-wrap' }}>{example}</code>
        return superseded ? <s>{line}</s> : line
      },
    },
    { key: 'shown', head: words('instruments.lineShown'), number: true, cell: ({ shown }) => shown },
    {
      key: 'settings',
      head: words('instruments.lineSettings'),
      cell: ({ baudRate, dataBits, parity, stopBits }) =>
        words('instruments.lineSettingsText', {
          baudRate: String(baudRate),
          dataBits,
          parity: words(`instruments.parity.${parity}`),
          stopBits,
        }),
    },
    { key: 'by', head: words('instruments.enteredBy'), cell: ({ by }) => by.name },
    { key: 'at', head: words('instruments.lineSince'), cell: ({ at }) => <TimeText at={at} look="short" /> },
    {
      key: 'note',
      head: words('instruments.remark'),
      cell: ({ supersedes }) => supersedes && words('instruments.correctedFor', { reason: supersedes.reason }),
    },
  ]
  return (
    <>
      {items.length > 0 && <div className="row">{act}</div>}
      <DataTable
        caption={words('instruments.lines')}
        columns={columns}
        rows={items}
        idOf={({ id }) => id}
        sortParam="lines"
        empty={
          <EmptyState title={words('instruments.noLine')} action={act}>
            {words('instruments.noLineMore')}
          </EmptyState>
        }
      />
    </>
  )
}
