'use client'

import type { ImportFault, ImportPreview, ImportRow } from '@curebook/contract/instrument-imports'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { fieldErrors } from '#lib/api-problem.ts'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useWords } from '#lib/words.ts'
import { useImportInstruments } from './imports.queries.ts'

/** What the file would bring in, by line; with a fault anywhere there is no button that stores. */
export function ImportPreviewPart({
  file,
  preview: { rows, faults },
  onReadAgain,
}: {
  file: { readonly name: string; readonly content: string }
  preview: ImportPreview
  onReadAgain: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const bringIn = useImportInstruments(lab.id)
  const [id] = useState(newId)
  const count = rows.length
  const sentences = Object.values(fieldErrors(bringIn.error))
  if (bringIn.data !== undefined)
    return (
      <p role="status" className="strong">
        {words('instrumentImport.done', { count: bringIn.data.instruments.length, file: bringIn.data.fileName })}
      </p>
    )
  return (
    <div className="stack">
      <p role="status" className="strong">
        {words(faults.length > 0 ? 'instrumentImport.faulty' : 'instrumentImport.ready', {
          count,
          faults: faults.length,
        })}
      </p>
      {faults.length > 0 && <FaultTable faults={faults} />}
      {count > 0 && <RowTable rows={rows} />}
      <FormErrors errors={sentences.length === 0 ? {} : { form: sentences.join(' ') }} />
      <div className="row">
        {faults.length === 0 && count > 0 && (
          <Button
            tone="main"
            busy={bringIn.isPending}
            onClick={() => bringIn.mutate({ id, fileName: file.name, content: file.content })}
          >
            {words('instrumentImport.bringIn', { count })}
          </Button>
        )}
        {sentences.length > 0 && <Button onClick={onReadAgain}>{words('instrumentImport.readAgain')}</Button>}
        <SaveState saving={savingOf(bringIn)} />
      </div>
    </div>
  )
}

function FaultTable({ faults }: { faults: readonly ImportFault[] }) {
  const words = useWords()
  const columns: readonly Column<ImportFault & { readonly at: number }>[] = [
    { key: 'line', head: words('instrumentImport.line'), number: true, cell: ({ line }) => line },
    {
      key: 'column',
      head: words('instrumentImport.column'),
      cell: ({ column }) => column ?? words('instrumentImport.wholeLine'),
    },
    { key: 'message', head: words('instrumentImport.right'), cell: ({ message }) => message },
  ]
  return (
    <DataTable
      caption={words('instrumentImport.faults', { count: faults.length })}
      columns={columns}
      rows={faults.map((fault, at) => ({ ...fault, at }))}
      idOf={({ at }) => String(at)}
      sortParam="faults"
      empty={null}
    />
  )
}

function RowTable({ rows }: { rows: readonly ImportRow[] }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const columns: readonly Column<ImportRow>[] = [
    { key: 'line', head: words('instrumentImport.line'), number: true, cell: ({ line }) => line },
    { key: 'code', head: words('instruments.code'), cell: ({ instrument }) => instrument.code },
    { key: 'name', head: words('instruments.name'), cell: ({ instrument }) => instrument.name },
    {
      key: 'kind',
      head: words('instruments.kind'),
      cell: ({ instrument }) => words(`instruments.kind.${instrument.kind}`),
    },
    {
      key: 'calibration',
      head: words('instruments.calibration'),
      cell: ({ calibration }) =>
        calibration === null
          ? words('instruments.nothing')
          : words(calibration.passed ? 'instrumentImport.calibrated' : 'instrumentImport.failed', {
              on: format.day(calibration.doneOn),
              until: format.day(calibration.validUntil),
              certificate: calibration.certificate,
            }),
    },
    {
      key: 'factor',
      head: words('instruments.factors'),
      cell: ({ factor }) =>
        factor === null
          ? words('instruments.nothing')
          : words('instrumentImport.factor', { typed: factor.typed, unit: factor.unit, edition: factor.edition }),
    },
  ]
  return (
    <DataTable
      caption={words('instrumentImport.rows', { count: rows.length })}
      columns={columns}
      rows={rows}
      idOf={({ line }) => String(line)}
      sortParam="lines"
      empty={null}
    />
  )
}
