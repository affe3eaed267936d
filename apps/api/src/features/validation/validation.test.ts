import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { expect, test } from 'vitest'
import { createValidationService } from './validation.service.ts'

const clock = { now: () => new Date('2026-03-02T08:00:00Z') }
const { rows } = createValidationService({ clock, methods: builtInMethods, build: '0.1.0' }).run()

test('a case is told in the words of the bench: method, inputs, outcome and refusal', () => {
  const row = rows.find(({ title, unit }) => title.startsWith('A loss of 13.3 g') && unit.includes('g/ft²'))
  expect(row).toMatchObject({
    method: 'Wet track abrasion, 1-hour soak',
    unit: 'Loss per area, 1-hour soak, g/ft²',
    inputs: expect.arrayContaining([{ name: 'Weigh after cure (W1): Mass', value: '770.0 g' }]),
  })
  expect(rows).toContainEqual(
    expect.objectContaining({ expected: 'refused: a factor, a moisture or a residue is missing', agrees: true }),
  )
})

test('a unit that stands in the name of a result is not said twice', () => {
  const units = rows.map(({ unit }) => unit)
  expect(units).toContain('Residual binder, % of dry aggregate')
  expect(units.filter((unit) => unit.endsWith('% of dry aggregate, % of dry aggregate'))).toEqual([])
})

test('no key of a method, a step or an outcome is shown in place of its name', () => {
  const names = new Set(builtInMethods.flatMap(({ key, steps, results }) => [key, ...steps, ...results].map(keyOf)))
  const keys = [...names].filter((key) => key.includes('-'))
  const shown = rows.flatMap(({ method, unit, expected, inputs }) => [
    ...[method, unit, expected],
    ...inputs.flatMap(({ name, value }) => [name, value]),
  ])
  expect(shown.filter((text) => keys.some((key) => text.split(/[ ,:]/).includes(key)))).toEqual([])
})

function keyOf(one: string | { readonly key: string }): string {
  return typeof one === 'string' ? one : one.key
}
