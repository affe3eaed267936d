import type { Reading, WindowState } from '@curebook/contract/bench'
import { cohesion } from '@curebook/trade/methods/cohesion'
import { trialMix } from '@curebook/trade/methods/trial-mix'
import { expect, test } from 'vitest'
import { wantedSteps } from './wanted-steps.ts'

const now = Date.parse('2026-03-03T09:10:00Z')
type View = Parameters<typeof wantedSteps>[0]
const view = (more: Partial<View>): View => ({
  method: { steps: cohesion.steps },
  currentStep: 'twist-30',
  locks: [],
  readings: [],
  windows: [],
  ...more,
})
const keys = (more: Partial<View>) => wantedSteps(view(more), now).map(({ key }) => key)
const read = (stepKey: string, superseded = false) => ({ stepKey, superseded }) as Reading
const closing = (stepKey: string, closesAt: string) => ({ stepKey, closesAt }) as WindowState

test('twists that need not be are offered in their order, two at once, once the rings are cast', () => {
  expect(keys({})).toEqual(['twist-20', 'twist-90'])
  expect(
    keys({ locks: ['twist-20', 'twist-90'].map((stepKey) => ({ stepKey, sentence: 'Cast first.' })) }),
  ).not.toContain('twist-20')
})

test('what is read already or whose window is over is offered no more; what was taken back is', () => {
  expect(keys({ readings: [read('twist-20')] })).toEqual(['twist-90', 'twist-120'])
  expect(keys({ readings: [read('twist-20', true)] })).toContain('twist-20')
  expect(keys({ windows: [closing('twist-20', '2026-03-03T09:05:00Z')] })).toEqual(['twist-90', 'twist-120'])
  expect(keys({ windows: [closing('twist-20', '2026-03-03T09:15:00Z')] })).toContain('twist-20')
})

test('what names nothing before it comes after all that must be done', () => {
  const cup = { method: { steps: trialMix.steps } }
  expect(keys({ ...cup, currentStep: 'stir' })).toEqual([])
  expect(keys({ ...cup, currentStep: null })).toEqual(['blot'])
})
