'use client'

import type { DrawSource } from '@curebook/contract/bench'
import type { ReadingDeclaration } from '@curebook/trade/procedure/declaration'
import { useState, type ReactNode } from 'react'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { beyond, sourceOf } from './source-choice.ts'
import { SourceField } from './source-field.tsx'

/** The bag of a component while it is weighed: the one in use until another is chosen. Asks where it holds less. */
export function useSource(
  sources: readonly DrawSource[],
  { target }: ReadingDeclaration,
): {
  readonly chosenId: string | undefined
  readonly ask: (value: string) => readonly string[]
  readonly field: ReactNode
} {
  const words = useWords()
  const format = useLaboratoryFormat()
  const source = sourceOf(sources, target?.component)
  const [made, setMade] = useState<string>()
  const chosenId = made ?? source?.inUseId ?? ''
  const chosen = source?.items.find(({ id }) => id === chosenId)
  return {
    chosenId: source === undefined || chosenId === '' ? undefined : chosenId,
    ask: (value) => {
      const over = beyond(chosen, value)
      if (over === undefined || chosen?.leftG == null) return []
      const left = format.quantity(chosen.leftG, 'g')
      return [words('bench.source.beyond', { code: chosen.code, left, over: format.quantity(over, 'g') })]
    },
    field: source && <SourceField source={source} chosenId={chosenId} onChoose={setMade} />,
  }
}
