'use client'

import { writtenUnit } from '@curebook/trade/quantity/unit-table'
import { DataTable, type Column } from '#components/data-table.tsx'
import { useWords } from '#lib/words.ts'
import { propertyName } from './method-groups.ts'
import type { Method } from './methods.queries.ts'

type Result = Method['results'][number]

/** What a method gives: each result with its unit or classes, the property it answers, and how it is reported. */
export function ResultPart({ method }: { method: Method }) {
  const words = useWords()
  const answersOf = (key: string) =>
    method.answers
      .filter(({ result }) => result === key)
      .map(propertyName)
      .join('; ')
  const columns: readonly Column<Result>[] = [
    { key: 'label', head: words('methods.result'), cell: ({ label }) => label },
    {
      key: 'unit',
      head: words('methods.unitOrClasses'),
      cell: ({ unit, choices }) =>
        choices === undefined ? (
          <span className="nowrap">{writtenUnit(unit)}</span>
        ) : (
          choices.map(({ label }) => label).join(' / ')
        ),
    },
    { key: 'answers', head: words('methods.answers'), cell: ({ key }) => answersOf(key) },
    {
      key: 'decimals',
      head: words('methods.decimals'),
      number: true,
      cell: ({ choices, displayDecimals }) => (choices === undefined ? displayDecimals : ''),
    },
    {
      key: 'reporting',
      head: words('methods.reporting'),
      cell: ({ reporting }) =>
        reporting === undefined
          ? ''
          : words('methods.reportingOf', { words: reporting.words, source: reporting.source }),
    },
  ]
  return (
    <section className="stack stack-tight" aria-labelledby="results">
      <h2 id="results">{words('methods.results')}</h2>
      <p className="quiet prose">{words('methods.resultsAbout')}</p>
      <DataTable
        caption={words('methods.results')}
        captionHidden
        columns={columns}
        rows={method.results}
        idOf={({ key, unit }) => `${key} ${unit}`}
        sortParam="results"
        empty={<p className="quiet">{words('methods.noResult')}</p>}
      />
    </section>
  )
}
