import type { DrawSource } from '@curebook/contract/bench'
import { compareDigits, subtractDigits } from '@curebook/trade/quantity/digit-conversion'
import { plain } from './rack-order.ts'

export type SourceItem = DrawSource['items'][number]

/** The bags of a component to choose from; nothing where nothing was ever set apart of its sample. */
export function sourceOf(sources: readonly DrawSource[], component: string | undefined): DrawSource | undefined {
  const source = sources.find((candidate) => candidate.component === component)
  return source?.items.some(({ kind }) => kind !== 'sample') ? source : undefined
}

/** What may be weighed out of: here, with something in it; and the one chosen, whatever it is. */
export function openItems({ items }: DrawSource, chosenId: string): readonly SourceItem[] {
  return items.filter(({ id, here, leftG }) => id === chosenId || (here && leftG !== '0'))
}

/** The bag with the label that was typed or scanned. */
export function itemWithLabel({ items }: DrawSource, typed: string): SourceItem | undefined {
  const code = plain(typed)
  return items.find((item) => plain(item.code) === code)
}

/** What a correction says of the bag: another one, null for none by name, and nothing where it is as before. */
export function correctedSource(before: string | undefined, chosenId: string): string | null | undefined {
  if (chosenId === (before ?? '')) return undefined
  return chosenId === '' ? null : chosenId
}

export type SourceState = 'used-up' | 'not-here' | 'open'

export function stateOfItem({ here, leftG }: SourceItem): SourceState {
  if (!here) return 'not-here'
  return leftG === '0' ? 'used-up' : 'open'
}

/** How much more is weighed than is left in it by the record; nothing where it is not more, or nobody knows. */
export function beyond(item: SourceItem | undefined, value: string): string | undefined {
  if (item === undefined || item.leftG === null || compareDigits(value, item.leftG) <= 0) return undefined
  return subtractDigits(value, item.leftG)
}
