'use client'

import type { GradationBand } from '@curebook/contract/specifications'
import { DataTable, type Column } from '#components/data-table.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { SourceText } from './source-text.tsx'

/** The gradation that a specification holds, each sieve with its stockpile tolerance. */
export function GradationBandTable({ band }: { band: GradationBand | null }) {
  const words = useWords()
  const { digits } = useLaboratoryFormat()
  const columns: readonly Column<GradationBand['sieves'][number]>[] = [
    { key: 'label', head: words('specifications.sieve'), cell: ({ label }) => label },
    { key: 'size', head: words('specifications.opening'), unit: 'mm', number: true, cell: ({ size }) => digits(size) },
    {
      key: 'band',
      head: words('specifications.passing'),
      unit: '%',
      number: true,
      cell: ({ from, to }) =>
        from === to ? digits(from) : words('specifications.span', { from: digits(from), to: digits(to) }),
    },
    {
      key: 'tolerance',
      head: words('specifications.tolerance'),
      unit: '%',
      number: true,
      cell: ({ tolerance }) => (tolerance === null ? '' : `± ${digits(tolerance)}`),
    },
  ]
  return (
    <section className="stack stack-tight" aria-labelledby="gradation-held">
      <h2 id="gradation-held">{words('specifications.gradation')}</h2>
      {band === null ? (
        <p>{words('specifications.noGradation')}</p>
      ) : (
        <>
          <DataTable
            caption={words('specifications.gradation')}
            captionHidden
            columns={columns}
            rows={band.sieves}
            idOf={({ size }) => size}
            sortParam="sieves"
            empty={null}
          />
          <p className="quiet small prose">
            <SourceText
              source={band.clause === null ? band.source : `${band.source}, ${band.clause}`}
              certainty={band.certainty}
            />
            . {words('specifications.toleranceAbout')}
          </p>
        </>
      )}
    </section>
  )
}
