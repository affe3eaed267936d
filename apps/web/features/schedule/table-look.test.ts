import { expect, test } from 'vitest'
import { withoutFilters } from './schedule-view.ts'
import { columnKeys, shownOf, toggled } from './table-look.ts'

test('columns stand in one order, whatever was left out and in which order; what is no column does no harm', () => {
  expect(shownOf([])).toEqual([...columnKeys])
  expect(shownOf(['person', 'window', 'gone'])).toEqual(['urgency', 'step', 'design'])
  expect(shownOf(toggled(toggled(['window'], 'step'), 'window'))).toEqual(['urgency', 'window', 'design', 'person'])
})

test('clearing the filters leaves the order of the tables as it is', () => {
  expect(withoutFilters('?show=late&person=nobody&sort=window.desc&people=tests&method=m&design=d')).toBe(
    '?sort=window.desc&people=tests',
  )
  expect(withoutFilters('?show=late')).toBe('')
  expect(withoutFilters('')).toBe('')
})
