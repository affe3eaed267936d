import { expect, test } from 'vitest'
import { askedReplicates } from '../procedure/replicates.ts'
import { cohesion, cohesionEn } from './cohesion.ts'
import { twists, twistStep } from './cohesion-steps.ts'
import { coneConsistency, coneConsistencyEn } from './cone-consistency.ts'

const sourcesOf = (method: typeof cohesion) =>
  Object.entries(method.editions[0]!.parameters)
    .filter(([, { certainty }]) => certainty === 'published')
    .map(([key, { source }]) => `${key}: ${source}`)

test('of the bulletin only the pressure under the foot was read, of the European form the twist and its five specimens', () => {
  expect(sourcesOf(cohesion)).toEqual(['foot-pressure: Caltrans contract 65A0151, Phase II report (2010)'])
  const en = 'EN 12274-4 (2018)'
  expect(sourcesOf(cohesionEn).sort()).toEqual([
    `replicates: ${en}`,
    `twist-arc-least: ${en}`,
    `twist-arc-most: ${en}`,
    `twist-time-least: ${en}`,
    `twist-time-most: ${en}`,
  ])
  expect(askedReplicates(cohesionEn.editions[0]!.parameters)).toBe(5)
  expect(askedReplicates(cohesion.editions[0]!.parameters)).toBe(3)
})

test('times of the bulletin are remembered, the full hours between them are practice, and ± 1 min is unsure', () => {
  const { parameters } = cohesion.editions[0]!
  const sureOf = (certainty: string) =>
    twists.map(({ minute }) => minute).filter((minute) => parameters[twistStep(minute)]?.certainty === certainty)
  expect(sureOf('from memory')).toEqual(['20', '30', '60', '90', '150', '210', '270'])
  expect(sureOf('common practice')).toEqual(['120', '180', '240'])
  const unsure = { value: '1', source: 'ISSA TB-139, unsure of the value, from memory, unverified' }
  for (const minute of ['30', '60']) expect(parameters[`twist-${minute}-tolerance`]).toMatchObject(unsure)
  const times = cohesion.results.filter(({ reporting }) => reporting?.words === 'to the nearest 5 min')
  expect(times.map(({ key, reporting }) => [key, reporting?.source])).toEqual([
    ['set-time', unsure.source],
    ['traffic-time', unsure.source],
  ])
  // Nothing of it was read for the European form.
  for (const { minute } of twists)
    expect(cohesionEn.editions[0]!.parameters[twistStep(minute)]?.certainty).toBe('common practice')
})

test.each([cohesion, cohesionEn])('$key says how hard the foot is, and at the check', ({ steps, editions }) => {
  const { parameters } = editions[0]!
  expect([parameters['foot-hardness-least']?.value, parameters['foot-hardness-most']?.value]).toEqual(['50', '70'])
  const shown = steps.find(({ key }) => key === 'check')!.conditions.map(({ targetParameter }) => targetParameter)
  expect(shown).toEqual(expect.arrayContaining(['foot-hardness-least', 'foot-hardness-most']))
})

test('torque is drawn over the minute that was read', () => {
  expect(cohesion.chart!.lines[0]!.points[0]!.x).toEqual({ reading: { step: 'twist-20', key: 'minute' } })
})

test.each([coneConsistency, coneConsistencyEn])('$key is of one emulsion content: a batch of 400 g', (method) => {
  expect([method.madeFrom, method.form]).toEqual(['batch', 'cup'])
  expect(method.editions[0]!.parameters[method.portionParameter!]).toMatchObject({ value: '400', unit: 'g' })
})
