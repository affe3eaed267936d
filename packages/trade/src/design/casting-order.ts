import { decimal } from '../quantity/decimal.ts'

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
  const replicates = [...new Set(specimens.filter(({ spare }) => !spare).map(({ replicate }) => replicate))]
  const orders = blockOrders(contents, Math.max(0, ...replicates), seed)
  const blocks = replicates
    .sort((a, b) => a - b)
    .flatMap((block) => sortedBy(ofBlock(specimens, block), orders[block - 1] ?? contents))
  const spares = specimens
    .filter(({ spare }) => spare)
    .toSorted((a, b) => decimal(a.content).cmp(b.content) || a.replicate - b.replicate)
  return [...blocks, ...spares]
}

/** The contents of each block in their order, block by block. */
export function blockOrders(contents: readonly string[], blocks: number, seed: string): readonly (readonly string[])[] {
  const orders: (readonly string[])[] = []
  for (let block = 0; block < blocks; block += 1)
    orders.push(
      block % 2 === 1
        ? (orders[block - 1] as readonly string[]).toReversed()
        : freshOrder(contents, `${seed} ${block}`, orders[block - 1]),
    )
  return orders
}

/**
 * Contents shuffled, turned on until they come neither by size nor as the block before them, as far as there are others. With
 * two contents one of the two orders by size is all there is.
 */
function freshOrder(contents: readonly string[], seed: string, before?: readonly string[]): readonly string[] {
  const shuffled = shuffle(contents, numbersFrom(seed))
  const turned = shuffled.map((_, by) => [...shuffled.slice(by), ...shuffled.slice(0, by)])
  const other = turned.filter((order) => !isSame(order, before))
  return other.find((order) => !isBySize(order)) ?? other[0] ?? shuffled
}

function distinctContents(specimens: readonly Castable[]): readonly string[] {
  const distinct: string[] = []
  for (const { content } of specimens) if (!distinct.some((known) => decimal(known).eq(content))) distinct.push(content)
  return distinct.sort((a, b) => decimal(a).cmp(b))
}

function ofBlock<T extends Castable>(specimens: readonly T[], block: number): readonly T[] {
  return specimens.filter(({ spare, replicate }) => !spare && replicate === block)
}

function sortedBy<T extends Castable>(specimens: readonly T[], order: readonly string[]): readonly T[] {
  const place = ({ content }: T) => order.findIndex((other) => decimal(other).eq(content))
  return specimens.toSorted((a, b) => place(a) - place(b))
}

function isSame(one: readonly string[], other: readonly string[] | undefined): boolean {
  return other !== undefined && one.every((content, index) => content === other[index])
}

function isBySize(order: readonly string[]): boolean {
  const steps = order.slice(1).map((content, index) => decimal(content).cmp(order[index] as string))
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

/** Numbers in [0, 1) that follow from a text: a 32-bit hash of it, then a mixing step for each number. */
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
