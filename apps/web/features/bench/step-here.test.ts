import type { Reading, StepEvent } from '@curebook/contract/bench'
import { batch } from '@curebook/trade/methods/batch'
import { loadedWheelSandAdhesion } from '@curebook/trade/methods/loaded-wheel-sand-adhesion'
import { expect, test } from 'vitest'
import type { Entry } from './reading-entry.ts'
import { lockHere, stepHere, type Here } from './step-here.ts'

const entry = (stepKey: string, key: string, state: Entry['state'] = 'queued') =>
  ({ id: `${stepKey}/${key}`, testId: 't1', slot: { stepKey, key, repeat: 1 }, typed: '1', state }) as Entry
const act = (stepKey: string, refused = false) =>
  ({ id: stepKey, testId: 't1', stepKey, kind: 'start', refused }) as Here['acts'][number]
const here = (currentStep: string | null, more: Partial<Here> & { view?: Partial<Here['view']> }): Here => ({
  entries: [],
  acts: [],
  ...more,
  view: {
    ...{ id: 't1', currentStep, readings: [], events: [], locks: [], method: { steps: batch.steps } },
    ...more.view,
  },
})
const components = ['aggregate', 'filler', 'additive', 'water', 'emulsion'].map((key) => entry('weigh-components', key))

test('a batch whose components wait on this device is mixed next, and done once its emulsion went in here', () => {
  expect(stepHere(here('weigh-components', { entries: components.slice(1) }))?.key).toBe('weigh-components')
  expect(stepHere(here('weigh-components', { entries: components }))?.key).toBe('mix')
  expect(stepHere(here('weigh-components', { entries: components, acts: [act('mix')] }))).toBeUndefined()
  expect(stepHere(here(null, {}))).toBeUndefined()
})

test('what was refused is not done: neither a reading nor an act', () => {
  const refused = [...components.slice(1), entry('weigh-components', 'aggregate', 'refused')]
  expect(stepHere(here('weigh-components', { entries: refused }))?.key).toBe('weigh-components')
  expect(stepHere(here('weigh-components', { entries: components, acts: [act('mix', true)] }))?.key).toBe('mix')
})

test('what must come first may stand on this device by now; else the step stays locked', () => {
  const { steps } = loadedWheelSandAdhesion
  const step = steps.find(({ needs = [] }) => needs.length > 0)!
  const locks = [{ stepKey: step.key, sentence: 'Weigh first.' }]
  const first = steps.filter(({ key }) => step.needs!.includes(key))
  const view = { method: { steps }, locks }
  expect(lockHere(step, here(first[0]!.key, { view }))?.sentence).toBe('Weigh first.')
  const entries = first.flatMap(({ key, readings }) =>
    readings.filter(({ optional }) => optional !== true).map((reading) => entry(key, reading.key)),
  )
  const events = first.flatMap(({ key, events: kinds }) => kinds.map((kind) => ({ stepKey: key, kind }) as StepEvent))
  expect(lockHere(step, here(first[0]!.key, { view: { ...view, events }, entries }))).toBeUndefined()
  const read = [{ stepKey: 'x', key: 'y' } as Reading]
  expect(lockHere(step, here(first[0]!.key, { view: { ...view, readings: read } }))).toBeDefined()
})
