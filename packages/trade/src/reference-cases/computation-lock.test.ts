import { createHash } from 'node:crypto'
import { expect, test } from 'vitest'
import { builtInMethods } from '../methods/catalogue.ts'
import type { ReferenceCase, ReferenceCaseFile } from '../procedure/reference-cases.ts'
import { builtInReferenceCases } from './built-in.ts'
import lock from './computation-lock.json' with { type: 'json' }

/**
 * What a case asked for, and since which computation of its method. A case that asks for something else needs a raised
 * `computation` and a further line here; what stands is never written over. Titles and sources may be reworded.
 */
type Lock = Record<string, Record<string, readonly { computation: number; digest: string }[]>>
type Numbered = { key: string; computation: number }

const digestOf = ({ readings, factors = [], inputs = {}, expected }: ReferenceCase): string =>
  createHash('sha256')
    .update(
      JSON.stringify([
        readings.map(({ step, key, value, unit }) => [step, key, value, unit]),
        factors.map(({ value, unit }) => [value, unit]),
        Object.entries(inputs)
          .map(([key, { value, unit }]) => [key, value, unit])
          .sort(),
        expected.map((one) =>
          'refusal' in one
            ? [one.key, one.refusal]
            : 'choice' in one
              ? [one.key, one.choice]
              : [one.key, one.unit, one.value, one.tolerance],
        ),
      ]),
    )
    .digest('hex')

/** Every case that was changed, added or taken away without saying so, in words. */
function faultsOf(files: readonly ReferenceCaseFile[], methods: readonly Numbered[], held: Lock): string[] {
  const found = files.flatMap(({ method, cases }) => {
    const computation = methods.find(({ key }) => key === method)?.computation ?? 0
    return cases.flatMap((item) => {
      const name = `${method}, ${item.id}`
      const chain = held[method]?.[item.id] ?? []
      const last = chain.at(-1)
      const digest = digestOf(item)
      if (!last)
        return [
          `${name} is new: add { "computation": ${computation}, "digest": "${digest}" } to computation-lock.json.`,
        ]
      if (chain.some(({ computation: number }, index) => index > 0 && number <= chain[index - 1]!.computation))
        return [`${name}: the computations of its lines do not rise.`]
      if (last.computation > computation)
        return [`${name} names computation ${last.computation}, the method is at ${computation}.`]
      return last.digest === digest
        ? []
        : [
            `${name} asks for something else than under computation ${last.computation}: raise the method’s computation above it, and add the line { "computation": ${computation}, "digest": "${digest}" }.`,
          ]
    })
  })
  const gone = Object.entries(held).flatMap(([method, cases]) =>
    Object.keys(cases)
      .filter((id) => !files.some((file) => file.method === method && file.cases.some((item) => item.id === id)))
      .map((id) => `${method}, ${id} is in computation-lock.json and no case any more.`),
  )
  return [...found, ...gone]
}

test('a reference case changes only with a raised computation of its method', () => {
  expect(faultsOf(builtInReferenceCases, builtInMethods, lock)).toEqual([])
})

test('the guard sees a changed, a new and a missing case, and takes a change under a raised computation', () => {
  const [file] = builtInReferenceCases
  const [item, ...others] = file!.cases
  const method = builtInMethods.find(({ key }) => key === file!.method)!
  const held: Lock = { [file!.method]: (lock as Lock)[file!.method]! }
  const changed = {
    ...item!,
    readings: item!.readings.map((reading, index) => (index === 0 ? { ...reading, value: '1' } : reading)),
  }
  const files = [{ ...file!, cases: [changed, ...others] }]
  expect(faultsOf(files, [method], held)).toEqual([expect.stringContaining('asks for something else')])

  const raised = { ...method, computation: method.computation + 1 }
  const line = { computation: raised.computation, digest: digestOf(changed) }
  const longer: Lock = { [method.key]: { ...held[method.key]!, [item!.id]: [...held[method.key]![item!.id]!, line] } }
  expect(faultsOf(files, [raised], longer)).toEqual([])
  // The line alone does not do: the method has to be raised, and no line may stand under the same number again.
  expect(faultsOf(files, [method], longer)).toEqual([expect.stringContaining('the method is at')])
  const again: Lock = {
    [method.key]: {
      ...held[method.key]!,
      [item!.id]: [...held[method.key]![item!.id]!, { ...line, computation: method.computation }],
    },
  }
  expect(faultsOf(files, [method], again)).toEqual([expect.stringContaining('do not rise')])

  expect(faultsOf([{ ...file!, cases: [...file!.cases, { ...item!, id: 'new' }] }], [method], held)).toEqual([
    expect.stringContaining('is new'),
  ])
  expect(faultsOf([{ ...file!, cases: others }], [method], held)).toEqual([expect.stringContaining('no case any more')])
  // Other words of the same case are no change.
  expect(faultsOf([{ ...file!, cases: [{ ...item!, title: 'Reworded' }, ...others] }], [method], held)).toEqual([])
})
