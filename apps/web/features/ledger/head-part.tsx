'use client'

import type { HeadPrint } from '@curebook/contract/ledger'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { Loaded } from '#components/loaded.tsx'
import { TextField } from '#components/text-field.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { ledgerQueries, usePrintHead } from './ledger.queries.ts'
import styles from './ledger.module.css'

/** The head on paper, kept where this server is not: against it a cut tail and a chain made anew both show. */
export function HeadPart() {
  const words = useWords()
  const lab = useLaboratory()
  const head = useQuery(ledgerQueries.head(lab.id))
  const prints = useQuery(ledgerQueries.prints(lab.id))
  const columns: readonly Column<HeadPrint>[] = [
    { key: 'seq', head: words('ledger.number'), cell: ({ seq }) => <span className="reading">{seq}</span> },
    { key: 'hash', head: words('ledger.hash'), cell: ({ hash }) => <span className={styles.hash}>{hash}</span> },
    { key: 'at', head: words('ledger.printedOn'), cell: ({ printedAt }) => <TimeText at={printedAt} /> },
    { key: 'place', head: words('ledger.place'), cell: ({ place }) => place },
    { key: 'by', head: words('ledger.who'), cell: ({ by }) => by.name },
  ]
  return (
    <div className="stack">
      <Loaded query={head} what={words('ledger.theHead')} height="8rem">
        {({ seq, hash, sealedAt }) => (
          <section className={`panel ${styles.head}`} aria-labelledby="head">
            <h2 id="head">{words('ledger.headOf', { laboratory: lab.name, number: seq })}</h2>
            <p className={styles.headHash}>{hash.replace(/(.{8})(?=.)/g, '$1 ')}</p>
            {sealedAt !== null && (
              <p>
                {words('ledger.sealedAt')} <TimeText at={sealedAt} />
              </p>
            )}
          </section>
        )}
      </Loaded>
      {lab.may('ledger:print-head') && <PrintForm />}
      <h2>{words('ledger.prints')}</h2>
      <Loaded query={prints} what={words('ledger.thePrints')} height="8rem">
        {(rows) => (
          <DataTable
            caption={words('ledger.prints')}
            captionHidden
            columns={columns}
            rows={rows}
            idOf={({ id }) => id}
            empty={<EmptyState title={words('ledger.noPrints')}>{words('ledger.noPrintsHelp')}</EmptyState>}
          />
        )}
      </Loaded>
    </div>
  )
}

function PrintForm() {
  const words = useWords()
  const lab = useLaboratory()
  const print = usePrintHead(lab.id)
  const [id, setId] = useState(newId)
  const { errors, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/ledger').then(({ PrintHeadSchema }) => PrintHeadSchema),
    read: (form) => ({ id, place: String(form.get('place')) }),
    save: print,
    onSaved: () => {
      setId(newId())
      window.print()
    },
  })
  return (
    <form className="stack narrow no-print" onSubmit={onSubmit} noValidate aria-busy={print.isPending}>
      <FormErrors errors={errors} />
      <TextField
        name="place"
        label={words('ledger.placeLabel')}
        hint={words('ledger.placeHint')}
        autoComplete="off"
        error={errors.place}
      />
      <div>
        <Button type="submit" tone="main" busy={print.isPending}>
          {words('ledger.printAct')}
        </Button>
      </div>
    </form>
  )
}
