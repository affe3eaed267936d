import { decimal, plainDigits } from '../quantity/decimal.ts'

/** A specimen to be cast: which content, which of its replicates (from 1), and whether it is only a spare. */
export type Castable = {
  /** Emulsion content in digits. */
  readonly content: string
  readonly replicate: number
  readonly spare: boolean
}

/**
 * The order in which specimens are cast: in blocks of one replicate of every content, spares last. Cast content after
 * content, the day's drift (mix warming up, hands tiring) would look like an effect of the binder. Blocks come in pairs, the
 * second backwards, so that a drift that is even over the pair weighs on every content alike. Common practice, no source.
 * @param seed the same seed gives the same order, whatever is cast already: name what is cast together
 */
export function castingOrder<T extends Castable>(specimens: readonly T[], seed: string): readonly T[] {
  const contents = distinctContents(specimens)
  const keyOf = new Map(contents.flatMap(({ key, written }) => written.map((text) => [text, key] as const)))
  const keys = contents.map(({ key }) => key)
  const replicates = [...new Set(specimens.filter(({ spare }) => !spare).map(({ replicate }) => replicate))]
  const orders = blockOrders(keys, Math.max(0, ...replicates), seed)
  const placeIn = (order: readonly string[]) => {
    const places = new Map(order.map((key, place) => [key, place]))
    return ({ content }: T) => places.get(keyOf.get(content) ?? '') ?? 0
  }
  const blocks = replicates
    .sort((a, b) => a - b)
    .flatMap((block) => {
      const place = placeIn(orders[block - 1] ?? keys)
      return ofBlock(specimens, block).toSorted((a, b) => place(a) - place(b))
    })
  const bySize = placeIn(keys)
  const spares = specimens
    .filter(({ spare }) => spare)
    .toSorted((a, b) => bySize(a) - bySize(b) || a.replicate - b.replicate)
  return [...blocks, ...spares]
}

/** The contents of each block in their order, block by block; `contents` by size. */
export function blockOrders(contents: readonly string[], blocks: number, seed: string): readonly (readonly string[])[] {
  const bySize = new Map(contents.map((content, place) => [content, place]))
  const orders: (readonly string[])[] = []
  for (let block = 0; block < blocks; block += 1) {
    const before = orders[block - 1]
    const paired = block % 2 === 1 && before !== undefined
    orders.push(paired ? before.toReversed() : freshOrder(bySize, `${seed} ${block}`, before))
  }
  return orders
}

/**
 * Contents shuffled, turned on until they come neither by size nor as the block before them, as far as there are others. With
 * two contents one of the two orders by size is all there is.
 */
function freshOrder(
  bySize: ReadonlyMap<string, number>,
  seed: string,
  before: readonly string[] | undefined,
): readonly string[] {
  const shuffled = shuffle([...bySize.keys()], numbersFrom(seed))
  const turned = (by: number) => [...shuffled.slice(by), ...shuffled.slice(0, by)]
  let other: readonly string[] | undefined
  for (let by = 0; by < shuffled.length; by += 1) {
    const order = turned(by)
    if (isSame(order, before)) continue
    if (!isBySize(order.map((content) => bySize.get(content) ?? 0))) return order
    other ??= order
  }
  return other ?? shuffled
}

/** Contents by size, each with the ways in which it is written: 12 and 12.0 are one. */
function distinctContents(
  specimens: readonly Castable[],
): readonly { readonly key: string; readonly written: string[] }[] {
  const distinct = new Map<string, string[]>()
  for (const content of new Set(specimens.map((specimen) => specimen.content))) {
    const key = plainDigits(decimal(content))
    distinct.set(key, [...(distinct.get(key) ?? []), content])
  }
  return [...distinct].map(([key, written]) => ({ key, written })).sort((a, b) => decimal(a.key).cmp(b.key))
}

function ofBlock<T extends Castable>(specimens: readonly T[], block: number): readonly T[] {
  return specimens.filter(({ spare, replicate }) => !spare && replicate === block)
}

function isSame(one: readonly string[], other: readonly string[] | undefined): boolean {
  return other !== undefined && one.every((content, index) => content === other[index])
}

function isBySize(places: readonly number[]): boolean {
  const steps = places.slice(1).map((place, index) => place - (places[index] as number))
  return steps.every((step) => step > 0) || steps.every((step) => step < 0)
}

/** Fisher and Yates, with numbers given. */
function shuffle(contents: readonly string[], next: () => number): readonly string[] {
  const order = [...contents]
  for (let at = order.length - 1; at > 0; at -= 1) {
    const other = Math.floor(next() * (at + 1))
    ;[order[at], order[other]] = [order[other] as string, order[at] as string]
  }
  return order
}

/**
 * Numbers in [0, 1) that follow from a text: a 32-bit hash of it, then a mixing step for each number. The numbers of both are
 * common practice, no source; that they scatter is what `casting-order.test.ts` shows.
 */
function numbersFrom(seed: string): () => number {
  let state = 0x811c9dc5
  for (let at = 0; at < seed.length; at += 1) state = Math.imul(state ^ seed.charCodeAt(at), 0x01000193)
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296
  }
}
