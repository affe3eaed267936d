import { expect, test } from 'vitest'
import { openSheetDraft } from './sheet-draft.ts'

const storage = () => {
  const kept = new Map<string, string>()
  return {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
    removeItem: (key: string) => void kept.delete(key),
  }
}
const formOf = (values: Record<string, string>) => {
  const form = new FormData()
  for (const [name, value] of Object.entries(values)) form.set(name, value)
  return form
}

test('what one person typed on a sheet stands in no other person’s boxes', () => {
  const tab = storage()
  openSheetDraft(tab, 'ada', 'design/method/weigh').keep(formOf({ 't1/w1': '812.4' }))
  expect(openSheetDraft(tab, 'max', 'design/method/weigh').typed('t1/w1')).toBe('')
  expect(openSheetDraft(tab, 'ada', 'design/method/dry').typed('t1/w1')).toBe('')
  expect(openSheetDraft(tab, 'ada', 'design/method/weigh').typed('t1/w1')).toBe('812.4')
})
test('the day and the times of a sheet come back with its boxes, and go with the last of them', () => {
  const tab = storage()
  const open = () => openSheetDraft(tab, 'ada', 'sheet')
  open().keep(
    formOf({ day: '2026-03-04', clock: '9:40', 't1/clock': '9:45', 't1/w1': '812.4', 't2/w1': '799.1', 't3/w1': '' }),
  )
  open().drop(['t1/w1'])
  expect(['day', 'clock', 't1/clock', 't1/w1', 't2/w1'].map(open().typed)).toEqual([
    '2026-03-04',
    '9:40',
    '9:45',
    '',
    '799.1',
  ])
  open().drop(['t2/w1'])
  expect(['day', 'clock', 't1/clock'].map(open().typed)).toEqual(['', '', ''])
})
