import type { ReplicateGroup } from '@curebook/contract/replicates'
import { expect, test } from 'vitest'
import { repeatabilitiesOf, suspectsOf, withoutRepeatability } from './replicate-view.ts'

const result = (testId: string, value: string) => ({ testId, code: testId.toUpperCase(), label: '12-1', value })
const outlier = (test: 'Grubbs' | 'Dixon', exceeds: boolean, suspect = result('a', '20')) => ({
  ...{ test, ratio: 'T', statistic: '1.2', critical: '1.1', significancePercent: '5', exceeds, suspect },
})
const group = (more: Partial<ReplicateGroup> = {}): ReplicateGroup => ({
  ...{ key: 'k', place: 'panel', curve: null, methodKey: 'm', methodName: 'Mix', label: 'Mix time', unit: 's' },
  ...{ displayDecimals: 0, emulsionPercent: '12', ofSample: false, results: [], n: 3, mean: '14' },
  ...{ standardDeviation: '5', range: '10', repeatability: null, noRepeatability: 'none-published' },
  ...{ acceptable: null, outliers: [], untested: null },
  ...more,
})
const held = { value: '0.426', unit: '%', source: 'a study', certainty: 'published' }

test('a result that both tests name is named once, with both; what does not exceed is no suspect', () => {
  expect(suspectsOf(group({ outliers: [outlier('Grubbs', true), outlier('Dixon', true)] }))).toEqual([
    { suspect: result('a', '20'), tests: ['Grubbs', 'Dixon'] },
  ])
  expect(suspectsOf(group({ outliers: [outlier('Grubbs', false), outlier('Dixon', true, result('b', '1'))] }))).toEqual(
    [{ suspect: result('b', '1'), tests: ['Dixon'] }],
  )
})

test('a method is named once as having no repeatability, and not where another of its results has one', () => {
  const groups = [
    group(),
    group({ label: 'Coating' }),
    group({ methodKey: 'b', methodName: 'Binder', repeatability: held, noRepeatability: null }),
    group({ methodKey: 'b', methodName: 'Binder', unit: '% of dry aggregate' }),
    group({ methodKey: 'c', methodName: 'Cone', noRepeatability: 'editions-differ' }),
  ]
  expect(withoutRepeatability(groups, 'none-published')).toEqual(['Mix'])
  expect(withoutRepeatability(groups, 'editions-differ')).toEqual(['Cone'])
  expect(repeatabilitiesOf(groups)).toEqual([{ label: 'Mix time', ...held }])
})
