import fc from 'fast-check'
import { expect, test } from 'vitest'
import { loadedWheelSandAdhesion } from '../methods/loaded-wheel-sand-adhesion.ts'
import { wetTrackAbrasion1h, wetTrackAbrasion6d } from '../methods/wet-track-abrasion.ts'
import { actsOf, progressOf, type RecordedEvent, type TakenReading } from './progress.ts'
import { dueOf, durationOf, EditionError, judgeWindows } from './windows.ts'

const parameters = wetTrackAbrasion1h.editions[0]!.parameters
const event = (step: string, act: 'start' | 'end', at: string): RecordedEvent => ({ step, act, at })
const reading = (step: string, at: string): TakenReading => ({ step, key: 'mass', repeat: 1, at })

const events = [
  event('cast', 'start', '2026-03-04T10:15:00Z'),
  event('cure', 'start', '2026-03-04T12:05:00Z'),
  event('cure', 'end', '2026-03-05T08:35:00Z'),
  event('cool', 'end', '2026-03-05T09:40:00Z'),
  event('soak', 'start', '2026-03-05T13:50:00Z'),
]
const readings = [reading('weigh-before', '2026-03-05T10:00:00Z')]
const judged = (acts: readonly RecordedEvent[], taken: readonly TakenReading[], at: string) =>
  Object.fromEntries(
    judgeWindows(wetTrackAbrasion1h, parameters, actsOf(wetTrackAbrasion1h, acts, taken), at).map((window) => [
      window.key,
      window,
    ]),
  )

test('the soak window opens after 60 minutes and closes after 75, ends included', () => {
  const at = (time: string) => judged(events, readings, `2026-03-05T${time}Z`).soak
  expect(at('14:49:59')).toMatchObject({
    state: 'pending',
    opensAt: '2026-03-05T14:50:00.000Z',
    closesAt: '2026-03-05T15:05:00.000Z',
    marginSeconds: -1,
  })
  expect(at('14:50:00')).toMatchObject({ state: 'open', marginSeconds: 0 })
  expect(at('15:05:00')).toMatchObject({ state: 'open', marginSeconds: 0 })
  expect(at('15:05:01')).toMatchObject({ state: 'missed', marginSeconds: -1, late: 'miss' })
})

test('a run started at 79 minutes is late by four minutes, one at 62 is met, one at 59 is early', () => {
  const started = (time: string) =>
    judged([...events, event('abrade', 'start', `2026-03-05T${time}Z`)], readings, '2026-03-06T00:00:00Z').soak
  expect(started('15:09:00')).toMatchObject({ state: 'late', marginSeconds: -240, late: 'miss' })
  expect(started('14:52:00')).toMatchObject({ state: 'met', marginSeconds: 120 })
  expect(started('14:49:00')).toMatchObject({ state: 'early', marginSeconds: -60 })
})

test('every window judged before its first act is pending without times', () => {
  for (const window of judgeWindows(wetTrackAbrasion6d, parameters, [], '2026-03-05T00:00:00Z'))
    expect(window).toMatchObject({ state: 'pending', opensAt: null, closesAt: null, marginSeconds: null })
})

test('drying back over 24 hours is a finding, the six-day soak takes 144 to 146 hours', () => {
  const acts = [
    event('soak', 'start', '2026-03-05T10:30:00Z'),
    event('dry-back', 'start', '2026-03-11T10:45:00Z'),
    event('dry-back', 'end', '2026-03-12T11:00:00Z'),
  ]
  const six = wetTrackAbrasion6d.editions[0]!.parameters
  const windows = judgeWindows(wetTrackAbrasion6d, six, acts, '2026-03-12T12:00:00Z')
  expect(windows.find(({ key }) => key === 'dry-back')).toMatchObject({ state: 'late', late: 'finding' })
  expect(windows.find(({ key }) => key === 'soak')).toMatchObject({
    opensAt: '2026-03-11T10:30:00.000Z',
    closesAt: '2026-03-11T12:30:00.000Z',
    state: 'missed',
  })
})

test('the last weighing is judged by its reading, from leaving the oven', () => {
  const acts = [
    ...events,
    event('dry-back', 'start', '2026-03-05T15:30:00Z'),
    event('dry-back', 'end', '2026-03-06T08:00:00Z'),
  ]
  const w2 = (time: string) =>
    judged(acts, [...readings, reading('weigh-after', `2026-03-06T${time}Z`)], '2026-03-06T12:00:00Z')['weigh-after']
  expect(w2('09:20:00')).toMatchObject({ state: 'met', opensAt: null, marginSeconds: 2400 })
  expect(w2('10:10:00')).toMatchObject({ state: 'late', marginSeconds: -600 })
})

test('a strip may cure as long as it likes after 12 hours', () => {
  const edition = loadedWheelSandAdhesion.editions[0]!.parameters
  const acts = [event('cure', 'start', '2026-03-09T15:45:00Z'), event('cure', 'end', '2026-03-14T08:00:00Z')]
  expect(judgeWindows(loadedWheelSandAdhesion, edition, acts, '2026-03-15T00:00:00Z')).toMatchObject([
    { key: 'cure', state: 'met', closesAt: null },
  ])
})

test('what is due next carries the times that bound it', () => {
  expect(dueOf(wetTrackAbrasion1h, parameters, [], [])).toEqual({
    step: 'cast',
    act: 'start',
    opensAt: null,
    closesAt: null,
    window: null,
  })
  expect(dueOf(wetTrackAbrasion1h, parameters, events.slice(0, 1), [])).toMatchObject({
    step: 'cure',
    act: 'start',
    closesAt: '2026-03-04T13:15:00.000Z',
    window: 'cast-to-oven',
  })
  expect(dueOf(wetTrackAbrasion1h, parameters, events, readings)).toMatchObject({
    step: 'abrade',
    act: 'start',
    opensAt: '2026-03-05T14:50:00.000Z',
    closesAt: '2026-03-05T15:05:00.000Z',
  })
})

test('while a disc cools, the weighing after it already closes', () => {
  const acts = [
    ...events,
    event('abrade', 'start', '2026-03-05T14:52:00Z'),
    event('dry-back', 'start', '2026-03-05T15:10:00Z'),
    event('dry-back', 'end', '2026-03-06T08:00:00Z'),
  ]
  expect(dueOf(wetTrackAbrasion1h, parameters, acts, readings)).toEqual({
    step: 'cool-after',
    act: 'end',
    opensAt: null,
    closesAt: '2026-03-06T10:00:00.000Z',
    window: 'weigh-after',
  })
})

test('a finished test has nothing due, and every step is done', () => {
  const acts = [
    ...events,
    event('abrade', 'start', '2026-03-05T14:52:00Z'),
    event('dry-back', 'start', '2026-03-05T15:10:00Z'),
    event('dry-back', 'end', '2026-03-06T08:00:00Z'),
    event('cool-after', 'end', '2026-03-06T09:00:00Z'),
  ]
  const taken = [...readings, reading('weigh-after', '2026-03-06T09:10:00Z')]
  expect(dueOf(wetTrackAbrasion1h, parameters, acts, taken)).toBeNull()
  expect(progressOf(wetTrackAbrasion1h, acts, taken)).toMatchObject({
    done: true,
    current: null,
    next: null,
    missing: [],
  })
})

test('an edition without a duration that a window needs is an error with its name', () => {
  expect(() => durationOf({}, 'soak-earliest')).toThrow(EditionError)
  const wrong = { 'soak-earliest': { ...parameters['soak-earliest']!, unit: 'g' } }
  expect(() => judgeWindows(wetTrackAbrasion1h, wrong, events, '2026-03-05T00:00:00Z')).toThrow()
})

test('the order in which acts are listed changes neither progress nor windows', () => {
  const acts = actsOf(wetTrackAbrasion1h, events, readings)
  const at = '2026-03-05T15:00:00Z'
  const windows = judgeWindows(wetTrackAbrasion1h, parameters, acts, at)
  const progress = progressOf(wetTrackAbrasion1h, events, readings)
  fc.assert(
    fc.property(fc.shuffledSubarray([...acts], { minLength: acts.length }), (shuffled) => {
      expect(judgeWindows(wetTrackAbrasion1h, parameters, shuffled, at)).toEqual(windows)
    }),
  )
  fc.assert(
    fc.property(fc.shuffledSubarray(events, { minLength: events.length }), (shuffled) => {
      expect(progressOf(wetTrackAbrasion1h, shuffled, readings)).toEqual(progress)
    }),
  )
})
