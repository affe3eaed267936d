import fc from 'fast-check'
import { expect, test } from 'vitest'
import { blockOrders, castingOrder, type Castable } from './casting-order.ts'

type Named = Castable & { readonly label: string }
const specimen = (content: string, replicate: number, spare = false): Named => ({
  ...{ content, replicate, spare },
  label: `${content}-${replicate}`,
})
const contents = ['10', '11', '12', '13', '14']
const series = (of: readonly string[], replicates: number): readonly Named[] =>
  of.flatMap((content) => Array.from({ length: replicates }, (_, index) => specimen(content, index + 1)))
const labels = (specimens: readonly Named[]) => specimens.map(({ label }) => label)

test('fifteen discs and two spares: three blocks, the second backwards, the spares last', () => {
  const order = castingOrder([...series(contents, 3), specimen('12', 4, true), specimen('10', 4, true)], 'design 1')
  expect(order).toHaveLength(17)
  const block = (from: number) => order.slice(from, from + 5).map(({ content }) => content)
  expect(block(5)).toEqual(block(0).toReversed())
  expect(block(10)).not.toEqual(block(5))
  expect(labels(order).slice(15)).toEqual(['10-4', '12-4'])
})

const someContents = fc
  .uniqueArray(fc.integer({ min: 10, max: 300 }), { minLength: 1, maxLength: 8 })
  .map((tenths) => tenths.map((tenth) => (tenth / 10).toString()))

test('every block has every content once, in another order than the one before, and never by size where it can be helped', () => {
  fc.assert(
    fc.property(someContents, fc.integer({ min: 1, max: 6 }), fc.string(), (of, replicates, seed) => {
      const order = castingOrder(series(of, replicates), seed)
      const blocks = Array.from({ length: replicates }, (_, index) =>
        order.slice(index * of.length, (index + 1) * of.length),
      )
      for (const [index, block] of blocks.entries()) {
        expect(block.every(({ replicate }) => replicate === index + 1)).toBe(true)
        expect(block.map(({ content }) => content).toSorted()).toEqual([...of].toSorted())
        const before = blocks[index - 1]
        if (before !== undefined && of.length > 1)
          expect(block.map(({ content }) => content)).not.toEqual(before.map(({ content }) => content))
        const sizes = block.map(({ content }) => Number(content))
        if (of.length > 2) {
          expect(sizes).not.toEqual(sizes.toSorted((a, b) => a - b))
          expect(sizes).not.toEqual(sizes.toSorted((a, b) => b - a))
        }
      }
    }),
  )
})

test('a drift that grows evenly weighs on every content alike over two blocks', () => {
  fc.assert(
    fc.property(someContents, fc.string(), (of, seed) => {
      const [one, other] = blockOrders(
        of.toSorted((a, b) => Number(a) - Number(b)),
        2,
        seed,
      )
      const drift = of.map((content) => one!.indexOf(content) + other!.indexOf(content))
      expect(new Set(drift).size).toBe(1)
    }),
  )
})

test('the same seed gives the same order, in whatever order the specimens are told; another seed another one', () => {
  const all = series(contents, 3)
  expect(labels(castingOrder(all.toReversed(), 'design 1'))).toEqual(labels(castingOrder(all, 'design 1')))
  const seeds = Array.from({ length: 12 }, (_, index) => labels(castingOrder(all, `design ${index}`)).join(' '))
  expect(new Set(seeds).size).toBeGreaterThan(6)
})

test('replicates added later make blocks of their own, and a content written otherwise is the same', () => {
  const added = [specimen('12.0', 4), specimen('10', 4)]
  const order = castingOrder([...series(['10', '12'], 3), ...added], 's')
  expect(order.slice(6).map(({ replicate }) => replicate)).toEqual([4, 4])
  expect(castingOrder([], 's')).toEqual([])
})
