'use client'

import { ownWordsOf } from '#lib/field-sentences.ts'
import { useWords } from '#lib/words.ts'

/** The sentence of an error; what a schema said without words of its own, in those of the catalogue. */
export function usePlainSentence(): (message: string) => string {
  const words = useWords()
  return (message) => {
    const own = ownWordsOf(message)
    return own === undefined ? message : words(`common.field.${own.key}`, { count: own.count })
  }
}
