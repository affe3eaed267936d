'use client'

import type { ExcludedPoint } from '@curebook/contract/range'
import { useCallback } from 'react'
import { useWords } from '#lib/words.ts'

/** Why a result does not count, with reason and person. */
export function useExcludedWords(): (point: ExcludedPoint) => string {
  const words = useWords()
  return useCallback(
    ({ kind, reason, by }) =>
      words(`range.excluded.${kind}`, { reason, by: by ?? '', named: by === null ? 'no' : 'yes' }),
    [words],
  )
}
