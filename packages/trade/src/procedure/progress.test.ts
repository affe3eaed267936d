import { expect, test } from 'vitest'
import { batch } from '../methods/batch.ts'
import { loadedWheelSandAdhesion } from '../methods/loaded-wheel-sand-adhesion.ts'
import type { StepDeclaration } from './declaration.ts'
import { progressOf, slotName, type RecordedEvent, type TakenReading } from './progress.ts'

const at = '2026-03-10T09:00:00Z'
const event = (step: string, act: 'start' | 'end', time = at): RecordedEvent => ({ step, act, at: time })
const reading = (step: string, key: string, repeat = 1, time = at): TakenReading => ({ step, key, repeat, at: time })
const strip = (events: readonly RecordedEvent[], readings: readonly TakenReading[] = []) =>
  progressOf(loadedWheelSandAdhesion, events, readings)
const stepOf = (progress: ReturnType<typeof strip>, key: string) => progress.steps.find((step) => step.key === key)

test('a new test begins with the first act of its first step', () => {
  expect(strip([])).toMatchObject({ current: 'cast', next: { step: 'cast', act: 'start' }, done: false })
})

test('an optional reading never holds a step open', () => {
  const progress = strip([event('cast', 'start')])
  expect(stepOf(progress, 'cast')).toMatchObject({ state: 'done', next: null, missing: [] })
  expect(progress.next).toEqual({ step: 'cure', act: 'start' })
})

test('a step with a start and an end is open between them', () => {
  const progress = strip([event('cast', 'start'), event('cure', 'start')])
  expect(stepOf(progress, 'cure')).toMatchObject({ state: 'open', next: { step: 'cure', act: 'end' } })
})

test('sanding is locked until the strip has been weighed', () => {
  expect(stepOf(strip([]), 'sand')).toMatchObject({ lockedBy: ['weigh-before'], beganTooSoon: false })
  expect(stepOf(strip([], [reading('weigh-before', 'mass')]), 'sand')).toMatchObject({ lockedBy: [] })
})

test('sanding recorded without a first weighing, or before it, is flagged and not refused', () => {
  expect(stepOf(strip([event('sand', 'start')]), 'sand')).toMatchObject({ beganTooSoon: true, state: 'done' })
  const afterwards = strip(
    [event('sand', 'start', '2026-03-10T09:40:00Z')],
    [reading('weigh-before', 'mass', 1, '2026-03-10T09:41:00Z')],
  )
  expect(stepOf(afterwards, 'sand')).toMatchObject({ lockedBy: [], beganTooSoon: true })
  const before = strip(
    [event('sand', 'start', '2026-03-10T09:40:00Z')],
    [reading('weigh-before', 'mass', 1, '2026-03-10T09:20:00Z')],
  )
  expect(stepOf(before, 'sand')).toMatchObject({ beganTooSoon: false })
})

test('a batch wants its five components and one confirmation, nothing else', () => {
  const progress = progressOf(batch, [], [])
  expect(progress.missing.map(slotName)).toEqual([
    'weigh-components/aggregate/1',
    'weigh-components/filler/1',
    'weigh-components/additive/1',
    'weigh-components/water/1',
    'weigh-components/emulsion/1',
  ])
  const readings = progress.missing.map((slot) => ({ ...slot, at }))
  expect(progressOf(batch, [event('mix', 'start')], readings).done).toBe(true)
})

test('a reading taken several times is missing until its last repeat', () => {
  const step: StepDeclaration = {
    key: 'measure',
    title: 'Measure',
    instruction: 'Measure three times.',
    cautions: [],
    events: ['start', 'end'],
    readings: [{ key: 'width', label: 'Width', kind: 'number', unit: 'mm', repeats: 3 }],
    equipment: [],
    conditions: [],
  }
  const progress = (readings: readonly TakenReading[]) =>
    progressOf({ steps: [step] }, [event('measure', 'start')], readings)
  expect(progress([reading('measure', 'width', 1), reading('measure', 'width', 3)])).toMatchObject({
    next: { step: 'measure', act: 'reading' },
    missing: [{ step: 'measure', key: 'width', repeat: 2 }],
  })
  expect(progress([1, 2, 3].map((repeat) => reading('measure', 'width', repeat))).next).toEqual({
    step: 'measure',
    act: 'end',
  })
})
