import { expect, test } from 'vitest'
import { planSeries, type SeriesInput } from './series.ts'

const content = (emulsionPercent: string) => ({
  emulsionPercent,
  waterPercent: '10',
  fillerPercent: '1',
  additivePercent: '0.2',
})
const full: SeriesInput = {
  kind: 'full',
  contents: ['10', '11', '12', '13', '14'].map(content),
  methods: [
    {
      methodKey: 'wet-track-abrasion-1h',
      form: 'disc',
      replicates: 3,
      spares: [
        { emulsionPercent: '10', count: 1 },
        { emulsionPercent: '12.0', count: 1 },
      ],
    },
    { methodKey: 'wet-track-abrasion-6d', form: 'disc', replicates: 3, spares: [] },
    { methodKey: 'loaded-wheel-sand-adhesion', form: 'strip', replicates: 3, spares: [] },
  ],
}

function plan(input: SeriesInput) {
  const outcome = planSeries(input)
  if (!outcome.ok) throw new Error(outcome.problems.map(({ sentence }) => sentence).join(' '))
  return outcome.series
}

function codes(change: Partial<SeriesInput>): readonly string[] {
  const outcome = planSeries({ ...full, ...change })
  return outcome.ok ? [] : outcome.problems.map(({ code, path }) => `${code} ${path}`)
}

test('a full design is contents × methods × replicates, and the spares', () => {
  const { mixes, specimens } = plan(full)
  expect(mixes.map(({ mixOrdinal, emulsionPercent }) => [mixOrdinal, emulsionPercent])).toEqual([
    [1, '10'],
    [2, '11'],
    [3, '12'],
    [4, '13'],
    [5, '14'],
  ])
  expect(specimens).toHaveLength(47)
  expect(specimens.filter(({ purpose }) => purpose === 'series')).toHaveLength(45)
  expect(
    specimens.filter(({ purpose }) => purpose === 'spare').map(({ label, replicate }) => [label, replicate]),
  ).toEqual([
    ['10-4', 4],
    ['12-4', 4],
  ])
})

test('specimens are cast in blocks of every content, and never in the order of the contents', () => {
  const specimens = plan(full).specimens.filter(({ methodKey }) => methodKey === 'wet-track-abrasion-1h')
  const contents = (from: number, to: number) => specimens.slice(from, to).map(({ emulsionPercent }) => emulsionPercent)
  for (const [block, from] of [0, 5, 10].entries()) {
    expect(specimens.slice(from, from + 5).every(({ replicate }) => replicate === block + 1)).toBe(true)
    expect(contents(from, from + 5)).not.toEqual(['10', '11', '12', '13', '14'])
    expect(contents(from, from + 5).toSorted()).toEqual(['10', '11', '12', '13', '14'])
  }
  expect(specimens.slice(15).map(({ label }) => label)).toEqual(['10-4', '12-4'])
})

test('a verification is planned at one content', () => {
  const verification = { ...full, kind: 'verification', contents: [content('12.50')] } as const
  const { specimens } = plan({ ...verification, methods: full.methods.slice(1) })
  expect(specimens.map(({ label }) => label)).toEqual(['12.5-1', '12.5-2', '12.5-3', '12.5-1', '12.5-2', '12.5-3'])
  expect(codes({ kind: 'verification' })).toEqual(['one-content-only contents'])
})

test('every problem of a plan is named with its place', () => {
  expect(codes({ contents: [], methods: [] })).toEqual(['no-contents contents', 'no-methods methods'])
  expect(codes({ contents: [content('10'), content('10.0'), content('12')] })).toEqual([
    'duplicate-content contents.1.emulsionPercent',
  ])
  expect(
    codes({
      contents: [content('0.9'), content('30.1'), content('x'), { ...content('9'), waterPercent: '-1' }],
      methods: full.methods.slice(1),
    }),
  ).toEqual([
    'content-out-of-range contents.0.emulsionPercent',
    'content-out-of-range contents.1.emulsionPercent',
    'not-a-number contents.2.emulsionPercent',
    'share-negative contents.3.waterPercent',
  ])
  const method = { methodKey: 'm', form: 'disc', replicates: 0, spares: [{ emulsionPercent: '9', count: 0 }] } as const
  expect(codes({ methods: [method, { ...method, replicates: 1.5, spares: [] }] })).toEqual([
    'too-few methods.0.replicates',
    'too-few methods.0.spares.0.count',
    'unknown-spare-content methods.0.spares.0.emulsionPercent',
    'duplicate-method methods.1.methodKey',
    'too-few methods.1.replicates',
  ])
})
