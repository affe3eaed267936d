import type { Reading } from '@curebook/contract/bench'
import type { StepDeclaration } from '@curebook/trade/procedure/declaration'
import { describe, expect, test } from 'vitest'
import { partsOfStep, rackReadings, readingsIn, slotsOfStep } from './reading-slots.ts'

const step: StepDeclaration = {
  key: 'twist',
  title: 'Twist',
  instruction: '',
  cautions: [],
  events: [],
  equipment: [],
  conditions: [],
  readings: [
    { key: 'torque', label: 'Torque', kind: 'number', unit: 'kg·cm', repeats: 3 },
    { key: 'break', label: 'Break', kind: 'choice', choices: [{ key: 'n', label: 'N' }] },
    { key: 'seen', label: 'What was seen', kind: 'text', optional: true },
    { key: 'mass', label: 'Mass', kind: 'number', unit: 'g' },
  ],
}
const by = { membershipId: 'm', name: 'Ada Brook', initials: 'AB' }
const reading = (id: string, more: Partial<Reading>): Reading => ({
  id,
  testId: 't',
  stepKey: 'twist',
  key: 'torque',
  repeat: 1,
  typed: '9',
  value: '9',
  unit: 'kg·cm',
  choice: null,
  by,
  eventAt: '2026-03-05T10:00:00Z',
  receivedAt: '2026-03-05T10:00:01Z',
  confirmedOdd: false,
  transcribed: false,
  attachment: null,
  drawnFrom: null,
  instrument: null,
  supersedes: null,
  superseded: false,
  waits: false,
  ...more,
})

describe('a step drawn from its declaration alone', () => {
  test('a repeated reading has one place for each repeat', () => {
    expect(slotsOfStep(step).map(({ declaration, repeat }) => `${declaration.key} ${repeat}`)).toEqual([
      'torque 1',
      'torque 2',
      'torque 3',
      'break 1',
      'seen 1',
      'mass 1',
    ])
  })
  test('optional readings stand apart', () => {
    const { required, optional } = partsOfStep(step)
    expect(required).toHaveLength(5)
    expect(optional.map(({ declaration }) => declaration.key)).toEqual(['seen'])
  })
  test('a rack is weighed for single numbers only', () => {
    expect(rackReadings(step).map(({ key }) => key)).toEqual(['mass'])
  })
  test('the reading that stands is shown, with every one that it took the place of, newest first', () => {
    const readings = [
      reading('a', { typed: '90', superseded: true }),
      reading('b', { typed: '19', superseded: true, supersedes: { id: 'a', typed: '90', by, reason: 'Mistyped' } }),
      reading('c', { typed: '9', supersedes: { id: 'b', typed: '19', by, reason: 'Weighed again' } }),
      reading('d', { repeat: 2 }),
    ]
    const { current, earlier } = readingsIn(slotsOfStep(step)[0]!, readings)
    expect(current?.id).toBe('c')
    expect(earlier.map(({ id }) => id)).toEqual(['b', 'a'])
  })
})
