import type { TrialCup } from '@curebook/contract/trials'
import { expect, test } from 'vitest'
import { draftOf } from './cup-draft.ts'
import { isEdited, settledEdits, type Edit } from './cup-edits.ts'

const value = (typed: string) => ({ typed, value: typed })
const cup = (id: string, water: string) =>
  ({
    id,
    number: 3,
    emulsion: value('12'),
    water: value(water),
    additive: value('0'),
    filler: value('0'),
    temperature: null,
    mixTime: null,
    mixTimeFrom: null,
    coated: null,
    clearWater: null,
    consistency: null,
    broke: null,
    startedAt: null,
    remark: '',
  }) as unknown as TrialCup
const edit = (water: string): Edit => {
  const before = cup('before', '10')
  return { cup: before, draft: { ...draftOf(before, 'made'), water }, reason: 'Mistyped' }
}

test('a correction that was stored, and only its answer was lost, is over', () => {
  expect(settledEdits([edit('11')], [cup('made', '11')], () => 'new')).toEqual([])
})

test('typed further meanwhile it goes on as another correction of the cup that stands now', () => {
  const [goesOn] = settledEdits([edit('11.5')], [cup('made', '11')], () => 'new')
  expect(goesOn).toMatchObject({ cup: { id: 'made' }, draft: { id: 'new', water: '11.5' }, reason: 'Mistyped' })
  expect(isEdited(goesOn!)).toBe(true)
})

test('while nothing stands under its id, nothing changes', () => {
  const edits = [edit('11')]
  expect(settledEdits(edits, [cup('before', '10'), cup('other', '11')], () => 'new')).toBe(edits)
})
