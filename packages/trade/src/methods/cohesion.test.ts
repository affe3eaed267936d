import { expect, test } from 'vitest'
import { checkCalculation } from '../procedure/calculation-checker.ts'
import type { EditionParameters, MethodDeclaration, ObservedReading } from '../procedure/declaration.ts'
import { actsOf, type TakenReading } from '../procedure/progress.ts'
import { dueOf, judgeWindows } from '../procedure/windows.ts'
import { cohesion, cohesionEn } from './cohesion.ts'

type Row = readonly [minute: string, torque: string, broke?: string, at?: string]

/** One set of rings, each twisted at its minute. */
function series(rows: readonly Row[], check: Readonly<Record<string, string>> = {}, method = cohesion) {
  const reading = (step: string, key: string, value: string): ObservedReading => ({
    id: `${step}-${key}`,
    step,
    key,
    repeat: 1,
    value,
  })
  return method.evaluate(
    [
      ...Object.entries({ 'room-temperature': '25.0', ...check }).map(([key, value]) => reading('check', key, value)),
      ...rows.flatMap(([planned, torque, broke = 'n', minute = planned]) => [
        reading(`twist-${planned}`, 'minute', minute),
        reading(`twist-${planned}`, 'torque', torque),
        reading(`twist-${planned}`, 'break', broke),
      ]),
    ],
    { parameters: method.editions[0]!.parameters, factors: [], inputs: {} },
  )
}
const valueOf = ({ results }: ReturnType<MethodDeclaration['evaluate']>, key: string) =>
  results.find((result) => result.key === key)?.value
const choiceOf = ({ choices = [] }: ReturnType<MethodDeclaration['evaluate']>, key: string) =>
  choices.find((choice) => choice.key === key)?.choice
const refusalOf = ({ refusals }: ReturnType<MethodDeclaration['evaluate']>, key: string) =>
  refusals.find((refusal) => refusal.key === key)

test('a set of rings, worked by hand: 20 + 10 × (12 − 8.5) ÷ 4 = 28.75 min, 60 + 30 × 0.5 ÷ 2 = 67.5 min', () => {
  const found = series([
    ['20', '8.5', 'soft'],
    ['30', '12.5'],
    ['60', '19.5', 'ns'],
    ['90', '21.5', 'ns'],
    ['150', '23.0', 's'],
    ['210', '25.0', 'ss'],
  ])
  expect(found.results.map(({ key, value, unit }) => [key, value, unit])).toEqual([
    ['cohesion-30-min', '12.5', 'kg·cm'],
    ['cohesion-60-min', '19.5', 'kg·cm'],
    ['set-time', '28.75', 'min'],
    ['traffic-time', '67.5', 'min'],
  ])
  expect(found.choices?.map(({ key, choice }) => [key, choice])).toEqual([
    ['set-class', 'quick-set'],
    ['traffic-class', 'slow-traffic'],
  ])
  expect(found.choices?.[1]?.findings).toEqual([
    'The ring spun at 60 min without the torque asked for: some specifications take a near spin for it.',
  ])
  for (const { calculation, value } of found.results) expect(checkCalculation(calculation, value)).toEqual([])
  for (const { calculation } of found.choices ?? []) expect(checkCalculation(calculation)).toEqual([])
})

test('the minute of the twist counts, not the one that was planned', () => {
  const found = series([
    ['20', '9.0', 'soft', '21'],
    ['30', '13.0', 'n', '31'],
    ['60', '20.0', 'ns'],
  ])
  expect(valueOf(found, 'set-time')).toBe('28.5')
  expect(valueOf(found, 'traffic-time')).toBe('60')
  expect(choiceOf(found, 'traffic-class')).toBe('quick-traffic')
})

test('a time outside what was twisted is refused and says what would find it', () => {
  const early = series([
    ['30', '12.5'],
    ['60', '18.0'],
  ])
  expect(refusalOf(early, 'set-time')).toMatchObject({
    code: 'not-bracketed',
    text: 'The first ring gives 12.5 kg·cm at 30 min already: set time lies before it, and no earlier ring was twisted.',
  })
  expect(refusalOf(early, 'traffic-time')).toMatchObject({
    code: 'not-bracketed',
    text: 'No ring reaches 20 kg·cm, the highest gives 18.0 kg·cm at 60 min: early rolling traffic time lies later, twist another ring.',
  })
  // The torques themselves stand, and so do the classes.
  expect(valueOf(early, 'cohesion-60-min')).toBe('18.0')
  expect(choiceOf(early, 'traffic-class')).toBe('slow-traffic')
})

test('a slow system has no quick class, and two rings at one minute cannot both be true', () => {
  const slow = series([
    ['30', '6.0', 'soft'],
    ['60', '11.5'],
    ['120', '14'],
  ])
  expect([choiceOf(slow, 'set-class'), choiceOf(slow, 'traffic-class')]).toEqual(['slow-set', 'slow-traffic'])
  expect(valueOf(slow, 'set-time')).toBe('72')
  const twice = series([
    ['30', '6.0', 'soft'],
    ['60', '11.5', 'n', '30'],
  ])
  expect(refusalOf(twice, 'set-time')).toMatchObject({
    code: 'inconsistent',
    text: 'Two rings stand at 30 min, with 6.0 and 11.5 kg·cm: correct the minute of one.',
  })
})

test('a later torque without its minute is named, and a negative one refused', () => {
  const rows: readonly Row[] = [
    ['30', '10'],
    ['60', '18'],
  ]
  const torque: ObservedReading = { id: 'x', step: 'twist-90', key: 'torque', repeat: 1, value: '22' }
  const parameters = cohesion.editions[0]!.parameters
  const readings = rows.flatMap(([minute, value]) => [
    { id: `m${minute}`, step: `twist-${minute}`, key: 'minute', repeat: 1, value: minute },
    { id: `t${minute}`, step: `twist-${minute}`, key: 'torque', repeat: 1, value },
    { id: `b${minute}`, step: `twist-${minute}`, key: 'break', repeat: 1, value: 'n' },
  ])
  const room = { id: 'r', step: 'check', key: 'room-temperature', repeat: 1, value: '25' }
  const found = cohesion.evaluate([room, ...readings, torque], { parameters, factors: [], inputs: {} })
  expect(refusalOf(found, 'traffic-time')).toMatchObject({ code: 'missing-reading' })
  expect(valueOf(found, 'cohesion-60-min')).toBe('18')
  expect(
    refusalOf(
      series([
        ['30', '-1'],
        ['60', '18'],
      ]),
      'cohesion-30-min',
    ),
  ).toMatchObject({ code: 'not-positive' })
})

test('room, foot, minute and a falling torque outside the edition are told and used all the same', () => {
  const found = series(
    [
      ['30', '12.5', 'n', '32'],
      ['60', '20.5', 'ns'],
      ['90', '18', 'n'],
    ],
    { 'room-temperature': '28.4', 'foot-pressure': '190' },
  )
  const findings = (key: string) => found.results.find((result) => result.key === key)?.findings
  const surroundings = [
    'The rings stood at 28.4 °C, where 25 ± 2 °C is asked for.',
    'The foot pressed with 190 kPa, where 200 ± 5 kPa is asked for.',
  ]
  expect(findings('cohesion-30-min')).toEqual([
    'The ring of 30 min was twisted at 32 min, where 30 ± 1 min is asked for.',
    ...surroundings,
  ])
  expect(findings('cohesion-60-min')).toEqual([
    ...surroundings,
    'The torque falls from 20.5 kg·cm at 60 min to 18 kg·cm at 90 min.',
  ])
  expect(valueOf(found, 'cohesion-30-min')).toBe('12.5')
})

test('the European form reads in N·m against its own torques', () => {
  const found = series(
    [
      ['30', '1.00'],
      ['60', '1.80', 'ns'],
      ['90', '2.20', 'ns'],
    ],
    {},
    cohesionEn,
  )
  // 30 + 30 × 0.2 ÷ 0.8 = 37.5 and 60 + 30 × 0.2 ÷ 0.4 = 75
  expect([valueOf(found, 'set-time'), valueOf(found, 'traffic-time')]).toEqual(['37.5', '75'])
  expect(found.results[0]).toMatchObject({ key: 'cohesion-30-min', value: '1.00', unit: 'N·m' })
})

test('an edition whose torque stands in another unit is refused, not compared', () => {
  const parameters = {
    ...cohesion.editions[0]!.parameters,
    'set-torque': cohesionEn.editions[0]!.parameters['set-torque']!,
  }
  const readings = ['30', '60'].flatMap((minute) => [
    { id: `m${minute}`, step: `twist-${minute}`, key: 'minute', repeat: 1, value: minute },
    { id: `t${minute}`, step: `twist-${minute}`, key: 'torque', repeat: 1, value: minute },
    { id: `b${minute}`, step: `twist-${minute}`, key: 'break', repeat: 1, value: 'n' },
  ])
  const room = { id: 'r', step: 'check', key: 'room-temperature', repeat: 1, value: '25' }
  const found = cohesion.evaluate([room, ...readings], { parameters, factors: [], inputs: {} })
  expect(refusalOf(found, 'set-time')).toMatchObject({ code: 'missing-setup' })
})

test('every twist has its window by event time; one that is not taken is never missed, and old editions ask for none', () => {
  const { parameters } = cohesion.editions[0]!
  const judged = (readings: readonly TakenReading[], at: string, edition: EditionParameters = parameters) => {
    const events = [{ step: 'cast', act: 'start', at: '2026-03-02T08:00:00Z' }] as const
    const windows = judgeWindows(cohesion, edition, actsOf(cohesion, events, readings), at)
    return Object.fromEntries(windows.map(({ key, state, late }) => [key, `${state} ${late}`]))
  }
  const torque = (minute: string, at: string) => ({ step: `twist-${minute}`, key: 'torque', repeat: 1, at })
  expect(judged([], '2026-03-02T09:30:00Z')).toMatchObject({
    'twist-30': 'missed finding',
    'twist-90': 'open finding',
    'twist-120': 'pending finding',
  })
  const after = judged(
    [torque('90', '2026-03-02T09:34:00Z'), torque('120', '2026-03-02T10:05:00Z')],
    '2026-03-02T13:00:00Z',
  )
  expect(after).toMatchObject({ 'twist-90': 'met finding', 'twist-120': 'late finding' })
  expect(after).not.toHaveProperty('twist-150')
  expect(judged([torque('90', '2026-03-02T09:20:00Z')], '2026-03-02T13:00:00Z')['twist-90']).toBe('early finding')

  const { 'twist-90-earliest': _, 'twist-90-latest': __, ...before } = parameters
  expect(judged([torque('90', '2026-03-02T09:20:00Z')], '2026-03-02T13:00:00Z', before)).not.toHaveProperty('twist-90')
  // A twist that need not be taken closes nothing that comes before it.
  const due = dueOf(cohesion, parameters, [{ step: 'cast', act: 'start', at: '2026-03-02T08:00:00Z' }], [])
  expect(due).toMatchObject({ window: 'twist-30', closesAt: '2026-03-02T08:34:00.000Z' })
})
