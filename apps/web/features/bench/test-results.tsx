'use client'

import type { ResultBrief, TestView } from '@curebook/contract/bench'
import { writtenUnit } from '@curebook/trade/quantity/unit-table'
import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { CalculationDialog } from '#components/calculation-dialog.tsx'
import { Dialog } from '#components/dialog.tsx'
import { ErrorState } from '#components/error-state.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { testPlace } from './bench-groups.ts'
import { benchQueries } from './bench.queries.ts'
import styles from './bench.module.css'

/** What follows from the readings, each number with its calculation; a refusal says why; replicates stand beside. */
export function TestResults({ view }: { view: TestView }) {
  const words = useWords()
  const [shown, setShown] = useState<ResultBrief>()
  if (view.results.length === 0 && view.suspicions.length === 0 && view.siblings.length === 0) return null
  return (
    <section className="stack" aria-labelledby="results">
      <h2 id="results">{words('bench.results')}</h2>
      {view.suspicions.map(({ kind, sentence }) => (
        <p key={`${kind} ${sentence}`} className="caution" role="note">
          {sentence}
        </p>
      ))}
      {view.results.length === 0 && <p className="quiet">{words('bench.noResults')}</p>}
      <ul className={styles.recorded}>
        {view.results.map((result) => (
          <li key={`${result.id} ${result.key} ${result.unit}`}>
            <span>{result.label}</span>
            {result.refusal !== null ? (
              <span>{result.refusal.text}</span>
            ) : (
              <span>
                <span className={styles.valueSmall}>
                  {result.value !== null ? (
                    <QuantityText digits={result.value} decimals={result.displayDecimals} />
                  ) : (
                    result.choice
                  )}
                </span>
                {result.value !== null && ` ${writtenUnit(result.unit)}`}
              </span>
            )}
            {result.findings !== null && <span className="quiet">{result.findings}</span>}
            {(result.value !== null || result.choice !== null) && (
              <Button
                onClick={() => setShown(result)}
                aria-label={words('bench.calculationOf', { label: result.label })}
              >
                {words('common.showCalculation')}
              </Button>
            )}
          </li>
        ))}
      </ul>
      {view.siblings.length > 0 && <Siblings view={view} />}
      {shown !== undefined && <Calculation result={shown} onClose={() => setShown(undefined)} />}
    </section>
  )
}

function Siblings({ view }: { view: TestView }) {
  const words = useWords()
  const lab = useLaboratory()
  return (
    <details>
      <summary>{words('bench.siblings', { count: view.siblings.length })}</summary>
      <ul className={styles.recorded}>
        {view.siblings.map(({ testId, code, label, results }) => (
          <li key={testId}>
            <Link href={testPlace(lab.short, testId)} prefetch={false}>
              {words('bench.name', { label, code })}
            </Link>
            {results
              .filter(({ value, choice }) => value !== null || choice !== null)
              .map((result) => (
                <span key={result.id}>
                  {result.label}:{' '}
                  {result.value !== null ? (
                    <QuantityText digits={result.value} unit={result.unit} decimals={result.displayDecimals} />
                  ) : (
                    result.choice
                  )}
                </span>
              ))}
            {results.length === 0 && <span className="quiet">{words('bench.noResults')}</span>}
          </li>
        ))}
      </ul>
    </details>
  )
}

function Calculation({ result, onClose }: { result: ResultBrief; onClose: () => void }) {
  const lab = useLaboratory()
  const words = useWords()
  const query = useQuery(benchQueries.result(lab.id, result.id))
  const title = words('bench.calculationOf', { label: result.label })
  if (query.data?.calculation)
    return (
      <CalculationDialog
        title={title}
        calculation={query.data.calculation}
        decimals={query.data.displayDecimals}
        edition={query.data.edition?.designation}
        onClose={onClose}
      />
    )
  return (
    <Dialog title={title} onClose={onClose}>
      {query.isError ? (
        <ErrorState what={words('bench.theCalculation')} error={query.error} onRetry={() => void query.refetch()} />
      ) : (
        <p role="status">{words(query.data === undefined ? 'bench.fetching' : 'common.calculation.none')}</p>
      )}
    </Dialog>
  )
}
