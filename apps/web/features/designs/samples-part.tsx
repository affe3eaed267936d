'use client'

import type { Design } from '@curebook/contract/designs'
import type { Material } from '@curebook/contract/materials'
import { DataTable, type Column } from '#components/data-table.tsx'
import { DayText } from '#components/time-text.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { materialFields } from './design-form-data.ts'

type Row = { readonly kind: string; readonly material: Material | null }

/** The samples that every specimen descends from, and the part of the aggregate that is used. */
export function SamplesPart({ design }: { design: Design }) {
  const words = useWords()
  const { digits } = useLaboratoryFormat()
  const rows: readonly Row[] = materialFields.map(({ kind }) => ({ kind, material: design.materials[kind] }))
  const columns: readonly Column<Row>[] = [
    { key: 'kind', head: words('designs.material'), cell: ({ kind }) => words(`designs.sample.${kind}`) },
    {
      key: 'code',
      head: words('designs.sampleCode'),
      cell: ({ material }) => <span className="reading nowrap">{material?.code ?? ''}</span>,
    },
    {
      key: 'name',
      head: words('designs.sampleName'),
      cell: ({ material }) => material?.name ?? words('designs.notUsed'),
    },
    { key: 'source', head: words('designs.sampleSource'), cell: ({ material }) => material?.sourceName ?? '' },
    { key: 'supplier', head: words('designs.sampleSupplier'), cell: ({ material }) => material?.supplier ?? '' },
    { key: 'lot', head: words('designs.sampleLot'), cell: ({ material }) => material?.lot ?? '' },
    {
      key: 'received',
      head: words('designs.sampleReceived'),
      cell: ({ material }) => material !== null && <DayText day={material.receivedOn} />,
    },
    { key: 'note', head: words('designs.sampleNote'), cell: ({ material }) => material?.note ?? '' },
  ]
  return (
    <section className="stack stack-tight" aria-labelledby="samples">
      <h2 id="samples">{words('designs.samples')}</h2>
      <DataTable
        caption={words('designs.samples')}
        captionHidden
        columns={columns}
        rows={rows}
        idOf={({ kind }) => kind}
        sortParam="samples"
        empty={null}
      />
      <dl className="facts">
        <div>
          <dt>{words('designs.fractionUsed')}</dt>
          <dd>{design.fractionUsed === '' ? words('designs.fractionAll') : design.fractionUsed}</dd>
        </div>
        <div>
          <dt>{words('designs.scalped')}</dt>
          <dd>
            {design.scalpedPercent === ''
              ? words('designs.nothingScalped')
              : words('designs.percent', { value: digits(design.scalpedPercent) })}
          </dd>
        </div>
      </dl>
    </section>
  )
}
