'use client'

import { useQuery } from '@tanstack/react-query'
import { CalculationDialog } from '#components/calculation-dialog.tsx'
import { Dialog } from '#components/dialog.tsx'
import { ErrorState } from '#components/error-state.tsx'
import { benchQueries } from '#features/bench/bench.queries.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'

export type ShownResult = { readonly resultId: string; readonly label: string; readonly code: string }

/** The working of one specimen's result, read when it is asked for. */
export function ResultDialog({ shown, onClose }: { shown: ShownResult; onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(benchQueries.result(lab.id, shown.resultId))
  const title = words('range.calculationOf', { label: shown.label, code: shown.code })
  if (query.data?.calculation)
    return <CalculationDialog title={title} calculation={query.data.calculation} onClose={onClose} />
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
