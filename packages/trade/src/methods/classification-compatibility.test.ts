import { describe, expect, test } from 'vitest'
import { checkCalculation } from '../procedure/calculation-checker.ts'
import type { EditionParameters, ObservedReading } from '../procedure/declaration.ts'
import { classificationCompatibility } from './classification-compatibility.ts'

const { parameters } = classificationCompatibility.editions[0]!
const four = (value: string) => [value, value, value, value]
const sound = {
  'weigh-dry': four('40.00'),
  'weigh-wet': four('41.20'),
  'weigh-tumbled': four('40.60'),
  'weigh-boiled': four('36.54'),
  look: four('92'),
}

function set(
  changed: Partial<typeof sound> = {},
  { edition = parameters, emulsion = '26.20' }: { edition?: EditionParameters; emulsion?: string } = {},
) {
  const reading = (step: string, key: string, value: string, repeat: number): ObservedReading => ({
    id: `${step}-${key}-${repeat}`,
    step,
    key,
    repeat,
    value,
  })
  const readings = Object.entries({ ...sound, ...changed }).flatMap(([step, values]) =>
    values.map((value, index) => reading(step, step === 'look' ? 'coated' : 'mass', value, index + 1)),
  )
  const found = classificationCompatibility.evaluate(
    [
      reading('weigh-components', 'fines', '200.00', 1),
      reading('weigh-components', 'emulsion', emulsion, 1),
      ...readings,
    ],
    {
      parameters: edition,
      factors: [],
      inputs: { residue: { id: 'r', value: '62.6', unit: '%', source: 'test' } },
    },
  )
  return {
    ...found,
    value: (key: string) => found.results.find((one) => one.key === key)?.value,
    grade: (property: string) => found.choices?.find(({ key }) => key === `${property}-grade`)?.choice,
    refusal: (key: string) => found.refusals.find((one) => one.key === key),
  }
}

describe('a set of four pills', () => {
  test('worked by hand: 3 % absorbed, 0.6 g lost, 90 % in one piece, 92 % coated: A, A, A', () => {
    // 1.20 ÷ 40.00; 41.20 − 40.60; 36.54 ÷ 40.60
    const found = set()
    expect(['absorption', 'abrasion', 'integrity', 'adhesion', 'points'].map(found.value)).toEqual([
      '3',
      '0.6',
      '90',
      '92',
      '12',
    ])
    expect(['abrasion', 'adhesion', 'integrity'].map(found.grade)).toEqual(['a', 'a', 'a'])
    for (const { calculation, value } of found.results) expect(checkCalculation(calculation, value)).toEqual([])
    for (const { calculation } of found.choices ?? []) expect(checkCalculation(calculation)).toEqual([])
  })

  test('its values are the means of the four', () => {
    // Losses 0.4, 0.5, 0.7 and 1.2 g.
    const found = set({ 'weigh-tumbled': ['40.80', '40.70', '40.50', '40.00'] })
    expect(found.value('abrasion')).toBe('0.7')
    expect(found.grade('abrasion')).toBe('a')
  })

  test('the working of the points names each end, grade and reading once', () => {
    const { calculation } = set().results.find(({ key }) => key === 'points')!
    const symbols = calculation.lines.map(({ symbol }) => symbol)
    expect(new Set(symbols).size).toBe(symbols.length)
    expect(symbols).toEqual(expect.arrayContaining(['S4', 'A.abrasion', 'P.integrity', 'K3']))
    expect(calculation.lines.at(-1)).toMatchObject({
      operands: ['P.abrasion', 'P.adhesion', 'P.integrity'],
      unit: 'points',
    })
  })
})

describe('the grades', () => {
  test.each([
    ['0.70', 'a'],
    ['0.71', 'b'],
    ['1.00', 'b'],
    ['1.01', 'c'],
    ['1.30', 'c'],
    ['1.31', 'd'],
    ['2.00', 'd'],
    ['2.01', '0'],
  ])('a loss of %s g is %s', (loss, grade) => {
    const after = (41.2 - Number(loss)).toFixed(2)
    expect(set({ 'weigh-tumbled': four(after), 'weigh-boiled': four('30.00') }).grade('abrasion')).toBe(grade)
  })

  test.each([
    ['90', 'a'],
    ['89.9', 'b'],
    ['75', 'b'],
    ['74.9', 'c'],
    ['50', 'c'],
    ['49.9', 'd'],
    ['10', 'd'],
    ['9.9', '0'],
    ['0', '0'],
  ])('%s %% coated, or in one piece, is %s', (share, grade) => {
    const found = set({
      look: four(share),
      'weigh-tumbled': four('40.00'),
      'weigh-boiled': four((Number(share) * 0.4).toFixed(2)),
    })
    expect(found.grade('adhesion')).toBe(grade)
    expect(found.grade('integrity')).toBe(grade)
  })

  test('a laboratory may give the shared end to the worse grade', () => {
    const worse = { ...parameters, 'shared-end-better': { ...parameters['shared-end-better']!, value: '0' } }
    expect(set({ look: four('90') }, { edition: worse }).grade('adhesion')).toBe('b')
    const unclear = { ...parameters, 'shared-end-better': { ...parameters['shared-end-better']!, value: '2' } }
    expect(set({}, { edition: unclear }).refusal('points')).toMatchObject({ code: 'inconsistent' })
  })

  test('without an end of the table there is no grade, and the values stand', () => {
    const { 'abrasion-a': _, ...short } = parameters
    const found = set({}, { edition: short })
    expect(found.refusal('abrasion-grade')).toMatchObject({ code: 'missing-setup' })
    expect(found.refusal('points')).toMatchObject({ code: 'missing-setup' })
    expect(found.value('abrasion')).toBe('0.6')
  })
})

describe('what cannot be is refused, and the rest stands', () => {
  test('a pill lighter after the soak', () => {
    const found = set({ 'weigh-wet': ['41.20', '39.95', '41.20', '41.20'], 'weigh-tumbled': four('39.00') })
    expect(found.refusal('absorption')).toMatchObject({ code: 'loss', detail: { loss: '0.05 g' } })
    expect(found.refusal('absorption')?.text).toContain('at pill 2')
    expect(found.value('abrasion')).toBe('1.8875')
  })
  test('a pill heavier after tumbling', () => {
    const found = set({ 'weigh-tumbled': ['40.60', '40.60', '41.30', '40.60'] })
    for (const key of ['abrasion', 'abrasion-grade', 'points'])
      expect(found.refusal(key)).toMatchObject({ code: 'gain', detail: { gain: '0.1 g' } })
    expect(found.value('adhesion')).toBe('92')
  })
  test('a pill that tumbling used up, while nothing left by boiling is 0', () => {
    expect(set({ 'weigh-tumbled': ['0', ...four('40.60').slice(1)] }).refusal('integrity')).toMatchObject({
      code: 'not-positive',
    })
    expect(set({ 'weigh-boiled': four('0') }).value('integrity')).toBe('0')
    expect(set({ 'weigh-boiled': ['-0.01', '0', '0', '0'] }).refusal('integrity')).toMatchObject({
      code: 'not-positive',
    })
  })
  test('a piece heavier than its pill; by little it is water, and used with a sentence', () => {
    expect(set({ 'weigh-boiled': four('41.10') }).refusal('integrity')).toMatchObject({
      code: 'gain',
      detail: { integrity: '101.2 %' },
    })
    const { results } = set({ 'weigh-boiled': four('40.80') })
    expect(results.find(({ key }) => key === 'integrity')?.findings).toEqual([
      expect.stringContaining('more than the usual 100 %'),
    ])
  })
  test('more than the whole surface', () => {
    expect(set({ look: ['92', '92', '92', '105'] }).refusal('adhesion')).toMatchObject({ code: 'inconsistent' })
  })
})

test('the binder of the pills follows from emulsion and residue, and is said to be off its span', () => {
  // 26.20 × 0.626 ÷ 200 = 8.2006 %
  const binder = (emulsion: string) => set({}, { emulsion }).results.find(({ key }) => key === 'residual-binder')
  expect(binder('26.20')).toMatchObject({ value: '8.2006', unit: '% of dry aggregate', findings: [] })
  expect(binder('30.00')?.findings).toEqual([expect.stringContaining('more than the usual 8.3 % of dry aggregate')])
  expect(binder('20.00')?.findings).toEqual([expect.stringContaining('less than the usual 8.1 % of dry aggregate')])
})

test('a loss and an absorption beyond what is usual are used, with a sentence', () => {
  const { results } = set({ 'weigh-wet': four('44.40'), 'weigh-tumbled': four('41.00') })
  const findings = (key: string) => results.find((one) => one.key === key)?.findings
  expect(findings('absorption')).toEqual([expect.stringContaining('Absorption of the pills of 11.00 %')])
  expect(findings('abrasion')).toEqual([expect.stringContaining('Abrasion loss of a pill of 3.40 g')])
})
