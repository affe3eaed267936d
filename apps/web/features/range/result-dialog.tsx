'use client'

import { useQuery } from '@tanstack/react-query'
import { CalculationDialog } from '#components/calculation-dialog.tsx'
import { Dialog } from '#components/dialog.tsx'
import { ErrorState } from '#components/error-state.tsx'
import { CalculationLinks, type LinkOfInput } from '#components/calculation-links.ts'
import { benchQueries } from '#features/bench/bench.queries.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'

export type ShownResult = {
  readonly resultId: string
  readonly testId: string
  readonly label: string
  readonly code: string
}

/** The working of one specimen's result, read when it is asked for. */
export function ResultDialog({ shown, onClose }: { shown: ShownResult; onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(benchQueries.result(lab.id, shown.resultId))
  // Readings of a specimen and of its batch stand on the specimen's own screen.
  const linkOf: LinkOfInput = ({ kind }) =>
    kind === 'reading'
      ? { href: `/l/${lab.short}/bench/tests/${shown.testId}`, label: words('range.readingOf', { code: shown.code }) }
      : undefined
  const title = words('range.calculationOf', { label: shown.label, code: shown.code })
  if (query.data?.calculation)
    return (
      <CalculationLinks value={linkOf}>
        <CalculationDialog
          title={title}
          calculation={query.data.calculation}
          decimals={query.data.displayDecimals}
          edition={query.data.edition?.designation}
          onClose={onClose}
        />
      </CalculationLinks>
    )
  return (
    <Dialog title={title} onClose={onClose}>
      {query.isError ? (
        <ErrorState what={words('range.theCalculation')} error={query.error} onRetry={() => void query.refetch()} />
      ) : (
        <p role="status">{words(query.data === undefined ? 'range.fetching' : 'common.calculation.none')}</p>
      )}
    </Dialog>
  )
}
