import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { expect, test } from 'vitest'
import { addToSeries } from './series-plan.ts'

const content = (emulsionPercent: string, waterPercent = '10') => ({
  emulsionPercent,
  waterPercent,
  fillerPercent: '1',
  additivePercent: '0.2',
})
const abrasion = (replicates: number, spares: { emulsionPercent: string; count: number }[] = []) => ({
  methodKey: 'wet-track-abrasion-1h',
  replicates,
  spares,
})
const nothing = { kind: 'full' as const, methods: builtInMethods, mixes: [], replicates: [] }

function labels(outcome: ReturnType<typeof addToSeries>) {
  return outcome.ok
    ? outcome.addition.specimens.map(({ label, purpose }) => `${label}${purpose === 'spare' ? ' spare' : ''}`)
    : []
}
function paths(outcome: ReturnType<typeof addToSeries>) {
  return outcome.ok ? [] : outcome.errors.map(({ path }) => path)
}

test('a first plan counts replicates from one and spares after them', () => {
  const outcome = addToSeries(
    { contents: [content('10'), content('12.0')], methods: [abrasion(2, [{ emulsionPercent: '12', count: 1 }])] },
    nothing,
  )
  expect(labels(outcome).toSorted()).toEqual(['10-1', '10-2', '12-1', '12-2', '12-3 spare'])
})

test('a further plan goes on counting and uses the mix that stands', () => {
  const standing = { ...content('12'), id: 'mix', ordinal: 1 }
  const outcome = addToSeries(
    { contents: [content('12.0'), content('13')], methods: [abrasion(1)] },
    {
      ...nothing,
      mixes: [standing],
      replicates: [{ methodKey: 'wet-track-abrasion-1h', emulsionPercent: '12', highest: 3 }],
    },
  )
  expect(labels(outcome)).toEqual(['12-4', '13-1'])
  expect(outcome.ok && outcome.addition.contents.map(({ standing }) => standing?.id)).toEqual(['mix', undefined])
})

test('one content is never made with two amounts of water', () => {
  const outcome = addToSeries(
    { contents: [content('12', '9')], methods: [abrasion(1)] },
    { ...nothing, mixes: [{ ...content('12'), id: 'mix', ordinal: 1 }] },
  )
  expect(paths(outcome)).toEqual(['contents.0.waterPercent'])
})

test('a verification stays at its one content', () => {
  const verification = {
    ...nothing,
    kind: 'verification' as const,
    mixes: [{ ...content('12'), id: 'mix', ordinal: 1 }],
  }
  expect(paths(addToSeries({ contents: [content('13')], methods: [abrasion(1)] }, verification))).toEqual([
    'contents.0.emulsionPercent',
  ])
  expect(labels(addToSeries({ contents: [content('12')], methods: [abrasion(1)] }, verification))).toEqual(['12-1'])
})

test('a batch, or a method not known here, is no test of a series', () => {
  const outcome = addToSeries(
    {
      contents: [content('12')],
      methods: [
        { ...abrasion(1), methodKey: 'batch' },
        { ...abrasion(1), methodKey: 'nothing' },
      ],
    },
    nothing,
  )
  expect(paths(outcome)).toEqual(['methods.0.methodKey', 'methods.1.methodKey'])
})
