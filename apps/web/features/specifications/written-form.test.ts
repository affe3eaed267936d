import { WriteSpecificationSchema } from '@curebook/contract/own-specifications'
import { expect, test } from 'vitest'
import { errorsWithout } from './form-rows.ts'
import { readWritten } from './written-form.ts'

const formOf = (fields: Record<string, string>) => {
  const form = new FormData()
  for (const [name, value] of Object.entries(fields)) form.set(name, value)
  return form
}
const head = {
  name: ' County limits ',
  source: 'County standard, 2026',
  aggregateType: 'Type II',
  traffic: 'heavy',
  'residualBand.from': '6,0',
  'residualBand.to': '',
  'residualBand.source': 'County standard, 2026',
  'residualBand.certainty': 'published',
}
const limit = (more: Record<string, string> = {}) =>
  Object.fromEntries(
    Object.entries({
      property: 'Mix time',
      label: 'Mix time',
      sense: 'min',
      value: '150 s',
      unit: 's',
      rounding: 'none',
      decisionRule: 'simple acceptance',
      source: 'County standard, 2026',
      group: 'mix',
      certainty: 'published',
      ...more,
    }).map(([field, value]) => [`limits.0.${field}`, value]),
  )
const id = '018f0000-0000-7000-8000-000000000001'

test('what is typed becomes what the contract takes, units and commas read, open edges null', () => {
  const body = readWritten(formOf({ ...head, ...limit() }), { id, limits: 1, sieves: null })
  expect(body).toMatchObject({
    name: 'County limits',
    residualBand: { from: '6.0', to: null },
    gradationBand: null,
    limits: [{ key: 'mix-time', property: 'mix-time', value: '150', upper: null, uncertainty: null, soak: null }],
  })
  expect(WriteSpecificationSchema.safeParse(body).success).toBe(true)
})

test('a stored limit keeps its key, a new one is named by property and soak', () => {
  const keyOf = (more: Record<string, string>) =>
    readWritten(formOf(limit(more)), { id, limits: 1, sieves: null }).limits[0]?.key
  expect(keyOf({ key: 'abrasion-loss-1-hour', property: 'abrasion-loss', soak: '1-hour' })).toBe('abrasion-loss-1-hour')
  expect(keyOf({ property: 'Abrasion loss', soak: '6-day' })).toBe('abrasion-loss-6-day')
})

test('an uncertainty is read with the rule that takes one, a gradation where one is held', () => {
  const fields = { decisionRule: 'guard band', 'uncertainty.expanded': '12', 'uncertainty.coverageFactor': '2' }
  const sieve = { size: '4,75', label: 'No. 4', from: '90', to: '100', tolerance: '' }
  const sieves = Object.fromEntries(
    Object.entries(sieve).map(([field, value]) => [`gradationBand.sieves.0.${field}`, value]),
  )
  const body = readWritten(formOf({ ...head, ...limit(fields), ...sieves }), { id, limits: 1, sieves: 1 })
  expect(body.limits[0]?.uncertainty).toEqual({ expanded: '12', coverageFactor: '2', source: '' })
  expect(body.gradationBand?.sieves).toEqual([{ size: '4.75', label: 'No. 4', from: '90', to: '100', tolerance: null }])
})

test('a new limit without a property is told once, at Property; two limits never have one key', () => {
  const body = readWritten(formOf({ ...head, ...limit({ property: '' }) }), { id, limits: 1, sieves: null })
  const judged = WriteSpecificationSchema.safeParse(body)
  expect(judged.error?.issues.map(({ path }) => path.join('.'))).toEqual(['limits.0.property'])

  const second = Object.fromEntries(
    Object.entries(limit({ property: 'Abrasion loss 1 hour' })).map(([name, value]) => [
      name.replace('.0.', '.1.'),
      value,
    ]),
  )
  const first = limit({ key: 'abrasion-loss-1-hour', property: 'abrasion-loss', soak: '1-hour' })
  const { limits } = readWritten(formOf({ ...first, ...second }), { id, limits: 2, sieves: null })
  expect(limits.map(({ key }) => key)).toEqual(['abrasion-loss-1-hour', 'abrasion-loss-1-hour-2'])
})

test('what was typed for another sense stays in its hidden field and is not sent', () => {
  const numbersOf = (sense: string) => {
    const form = formOf(limit({ sense, value: '40', upper: '90' }))
    const [read] = readWritten(form, { id, limits: 1, sieves: null }).limits
    return [read?.value, read?.upper]
  }
  expect(numbersOf('between')).toEqual(['40', '90'])
  expect(numbersOf('max')).toEqual(['40', null])
  expect(numbersOf('declared')).toEqual([null, null])
})

test('errors stay with their rows once a row is taken out', () => {
  const errors = {
    name: 'a',
    limits: 'b',
    'limits.0.unit': 'c',
    'limits.1.unit': 'd',
    'limits.2.uncertainty.source': 'e',
  }
  expect(errorsWithout(errors, { list: 'limits', index: 1 })).toEqual({
    name: 'a',
    limits: 'b',
    'limits.0.unit': 'c',
    'limits.1.uncertainty.source': 'e',
  })
})
