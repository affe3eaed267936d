'use client'

import type { BatchSheet, Design } from '@curebook/contract/designs'
import { itemForms } from '@curebook/contract/item-forms'
import { useQuery } from '@tanstack/react-query'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { QuantityText } from '#components/quantity-text.tsx'
import { useWords } from '#lib/words.ts'
import { decimalsOfTarget, sheetRows, sheetTables, type SheetRow } from './batch-sheet-rows.ts'
import { designQueries } from './designs.queries.ts'
import { ResidualTable } from './residual-table.tsx'

const components = ['aggregate', 'filler', 'water', 'additive', 'emulsion'] as const

/** What to weigh for one batch of each content and form, in the order in which it goes into the bowl; to be printed. */
export function BatchSheets({ design, methodNames }: { design: Design; methodNames: ReadonlyMap<string, string> }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(designQueries.batchSheets(lab.id, { id: design.id, revision: design.revision }))
  return (
    <section className="stack stack-tight" aria-labelledby="sheets">
      <div className="row row-between">
        <h2 id="sheets">{words('designs.sheets')}</h2>
        <span className="no-print">
          <Button onClick={() => window.print()}>{words('designs.printSheets')}</Button>
        </span>
      </div>
      <p className="quiet">{words('designs.sheetsAbout')}</p>
      <Loaded query={query} what={words('designs.theSheets')} height="16rem">
        {({ items }) => {
          const rows = sheetRows(items)
          return (
            <>
              {rows
                .filter(({ sheet }) => sheet.refusal !== null)
                .map((row) => (
                  <Refusal key={row.key} row={row} />
                ))}
              {itemForms.flatMap((form) =>
                sheetTables(rows, form).map((table) => (
                  <SheetTable key={table[0]?.key} form={form} rows={table} methodNames={methodNames} />
                )),
              )}
              <ResidualTable sheets={items} />
              {rows.length === 0 && <EmptyState title={words('designs.noSheets')} />}
            </>
          )
        }}
      </Loaded>
    </section>
  )
}

function Refusal({ row: { sheet } }: { row: SheetRow }) {
  const words = useWords()
  const { digits } = useLaboratoryFormat()
  return (
    <p className="caution" role="note">
      {words('designs.sheetRefused', {
        content: digits(sheet.emulsionPercent),
        form: words(`designs.form.${sheet.form}`),
        why: sheet.refusal ?? '',
      })}
    </p>
  )
}

function SheetTable({
  form,
  rows,
  methodNames,
}: {
  form: BatchSheet['form']
  rows: readonly SheetRow[]
  methodNames: ReadonlyMap<string, string>
}) {
  const words = useWords()
  const { digits } = useLaboratoryFormat()
  const target = (component: (typeof components)[number]): Column<SheetRow> => ({
    key: component,
    head: words(`designs.component.${component}`),
    unit: 'g',
    number: true,
    cell: ({ sheet }) => {
      const grams = sheet.rows.find((row) => row.component === component)?.targetG
      return grams === undefined ? '' : <QuantityText digits={grams} decimals={decimalsOfTarget(grams)} />
    },
  })
  const columns: readonly Column<SheetRow>[] = [
    {
      key: 'content',
      head: words('designs.mix'),
      cell: ({ sheet }) => (
        <span className="nowrap">{words('designs.mixName', { content: digits(sheet.emulsionPercent) })}</span>
      ),
    },
    {
      key: 'methods',
      head: words('designs.castFor'),
      cell: ({ methodKeys }) => methodKeys.map((key) => methodNames.get(key) ?? key).join('; '),
    },
    ...components.map(target),
  ]
  const first = rows[0]?.sheet
  return (
    <>
      <DataTable
        caption={words('designs.sheetCaption', {
          form: words(`designs.form.${form}`),
          aggregate: digits(first?.dryAggregateG ?? ''),
          moisture:
            first?.moisturePercent == null ? words('designs.moistureUnknown') : `${digits(first.moisturePercent)} %`,
        })}
        columns={columns}
        rows={rows}
        idOf={({ key }) => key}
        sortParam={`sheet-${form}-${first?.dryAggregateG ?? ''}`}
        empty={null}
      />
      {first !== undefined && first.fractionUsed !== '' && (
        <p className="small quiet">
          {words('designs.sheetFraction', {
            fraction: first.fractionUsed,
            scalped:
              first.scalpedPercent === '' ? '' : words('designs.sheetScalped', { value: digits(first.scalpedPercent) }),
          })}
        </p>
      )}
    </>
  )
}
