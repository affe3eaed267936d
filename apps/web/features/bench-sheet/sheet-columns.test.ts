import type { BatchSheet, SpecimenRow } from '@curebook/contract/designs'
import type { StepDeclaration } from '@curebook/trade/procedure/declaration'
import { expect, test } from 'vitest'
import { sheetColumns, sheetRows, targetOf } from './sheet-columns.ts'

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
    ({ label, code: label, methodKey, state, mixId: 'm', testId: `t${label}`, batchTestId: `b${label}` }) as SpecimenRow
  const all = [
    specimen('10-1', 'abrasion', 'in-work'),
    specimen('10-2', 'abrasion', 'void'),
    specimen('10-1', 'wheel', 'waiting'),
  ]
  const of = { label: '10-1', specimenTestId: 't10-1' }
  expect(sheetRows(all, 'abrasion')).toEqual([{ ...of, testId: 't10-1', code: '10-1' }])
  expect(sheetRows(all.slice(0, 2), 'batch')).toEqual([{ ...of, testId: 'b10-1', code: '10-1.B' }])
})

test('a target is that of the sheet by which the batch of its specimen is weighed', () => {
  const sheet = (testIds: string[], targetG: string) =>
    ({ mixId: 'm', methodKey: 'cup', testIds, rows: [{ component: 'emulsion', targetG }] }) as unknown as BatchSheet
  const sheets = [sheet(['first', 'second'], '12'), sheet(['third'], '24')]
  const row = { testId: 'b', code: 'c', label: '11-1', specimenTestId: 'second' }
  expect(targetOf(sheets, row, 'emulsion')).toBe('12')
  expect(targetOf(sheets, { ...row, specimenTestId: 'third' }, 'emulsion')).toBe('24')
  expect(targetOf(sheets, row, 'filler')).toBeUndefined()
  expect(targetOf(sheets, { ...row, specimenTestId: 'other' }, 'emulsion')).toBeUndefined()
})
