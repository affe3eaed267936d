import { useWords } from '#lib/words.ts'
import { isWord, type CupField } from './cup-draft.ts'

/** Name and unit of a field of a cup, where the table stands as cards and its head is away. */
export function useCupHeads(): (field: CupField) => string {
  const words = useWords()
  return (field) => {
    const head = words(`trials.head.${field}`)
    return isWord(field) ? head : `${head}, ${words(`trials.unit.${field}`)}`
  }
}
