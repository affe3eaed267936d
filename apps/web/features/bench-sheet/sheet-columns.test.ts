import type { SpecimenRow } from '@curebook/contract/designs'
import type { StepDeclaration } from '@curebook/trade/procedure/declaration'
import { expect, test } from 'vitest'
import { sheetColumns, sheetRows } from './sheet-columns.ts'

const acts = { start: 'Begun', end: 'Ended' }
const step = (more: Partial<StepDeclaration>) =>
  ({ key: 'abrade', readings: [], events: [], ...more }) as unknown as StepDeclaration

test('boxes stand in the order of the work, each repeat its own', () => {
  const columns = sheetColumns(
    step({
      events: ['start', 'end'],
      eventLabels: { start: 'Run started' },
      readings: [
        { key: 'water', label: 'Water', kind: 'number', unit: '°C' },
        { key: 'diameter', label: 'Diameter', kind: 'number', unit: 'mm', repeats: 2 },
      ],
    }),
    acts,
  )
  expect(columns.map(({ key, label }) => [key, label])).toEqual([
    ['start', 'Run started'],
    ['water/1', 'Water'],
    ['diameter/1', 'Diameter 1'],
    ['diameter/2', 'Diameter 2'],
    ['end', 'Ended'],
  ])
  expect(sheetColumns(step({}), acts)).toEqual([])
})

test('a sheet is of what is in work of one method, or of the batches behind', () => {
  const specimen = (label: string, methodKey: string, state: string) =>
    ({ label, code: label, methodKey, state, testId: `t${label}`, batchTestId: `b${label}` }) as SpecimenRow
  const all = [
    specimen('10-1', 'abrasion', 'in-work'),
    specimen('10-2', 'abrasion', 'void'),
    specimen('10-1', 'wheel', 'waiting'),
  ]
  expect(sheetRows(all, 'abrasion')).toEqual([{ testId: 't10-1', code: '10-1', label: '10-1' }])
  expect(sheetRows(all.slice(0, 2), 'batch')).toEqual([{ testId: 'b10-1', code: '10-1.B', label: '10-1' }])
})
