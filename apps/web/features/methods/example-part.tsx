'use client'

import type { MethodExample } from '@curebook/contract/methods'
import type { Calculation } from '@curebook/trade/procedure/calculation'
import { useQuery } from '@tanstack/react-query'
import { CalculationTable } from '#components/calculation-dialog.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { Loaded } from '#components/loaded.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { methodQueries } from './methods.queries.ts'

type Example = NonNullable<MethodExample['example']>
type Input = Example['inputs'][number] & { readonly id: string }

/** A reference case of the method, computed now by this installation: what went in, and the working of every result. */
export function ExamplePart({ methodKey }: { methodKey: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(methodQueries.example(lab.id, methodKey))
  return (
    <section className="stack" aria-labelledby="example">
      <h2 id="example">{words('methods.example')}</h2>
      <Loaded query={query} what={words('methods.thisExample')}>
        {({ example }) =>
          example === null ? <p className="quiet prose">{words('methods.noExample')}</p> : <Worked example={example} />
        }
      </Loaded>
    </section>
  )
}

function Worked({ example }: { example: Example }) {
  const words = useWords()
  const { title, kind, source, designation, year, others } = example
  const columns: readonly Column<Input>[] = [
    { key: 'name', head: words('methods.wentIn'), cell: ({ name }) => name },
    {
      key: 'value',
      head: words('methods.value'),
      cell: ({ value, unit }) => (unit === null ? value : <QuantityText digits={value} unit={unit} />),
    },
  ]
  return (
    <>
      <p className="prose">
        {words('methods.exampleOf', { title, kind: words(`methods.kind.${kind}`), source })}{' '}
        {words('methods.exampleBy', { designation, year })}{' '}
        {others > 0 && words(others === 1 ? 'methods.exampleOther' : 'methods.exampleOthers', { count: others })}
      </p>
      <DataTable
        caption={words('methods.wentIn')}
        captionHidden
        columns={columns}
        rows={example.inputs.map((input, index) => ({ ...input, id: String(index) }))}
        idOf={({ id }) => id}
        sortParam="inputs"
        empty={null}
      />
      {example.results.map(({ key, label, value, unit, displayDecimals, choice, calculation }) => (
        <div key={`${key} ${unit}`} className="stack stack-tight">
          <h3>
            {label}: {value === null ? choice : <QuantityText digits={value} unit={unit} decimals={displayDecimals} />}
          </h3>
          <CalculationTable
            calculation={calculation as Calculation}
            caption={words('methods.workingOf', { label, unit: unit ?? '' })}
          />
        </div>
      ))}
    </>
  )
}
