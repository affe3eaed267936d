import type { Material } from '@curebook/contract/materials'
import { expect, test } from 'vitest'
import { assertOpen, faultOfScalped, faultsOfMaterials } from './design-rules.ts'

const sample = {
  id: 'a',
  code: '3F7K',
  kind: 'aggregate',
  name: 'Type II',
  sourceName: 'Skerry Edge Quarry',
  supplier: '',
  lot: '',
  receivedOn: '2026-03-02',
  note: '',
  createdAt: '',
} as Material

test('each field takes a sample of its own kind that is here', () => {
  expect(faultsOfMaterials({ aggregateId: 'a', fillerId: null }, [sample])).toEqual([])
  expect(faultsOfMaterials({ emulsionId: 'a', waterId: 'b' }, [sample]).map(({ path }) => path)).toEqual([
    'emulsionId',
    'waterId',
  ])
})

test('the part taken off is a share below 100 %, or nothing was said', () => {
  for (const right of ['', '5.9', '5,9 %', '0']) expect(faultOfScalped(right)).toEqual([])
  for (const wrong of ['100', '-1', 'a tenth', '5 g']) expect(faultOfScalped(wrong)).toHaveLength(1)
})

test('a revision changes only while it is drafted, in work or sent back', () => {
  for (const state of ['draft', 'in-work', 'sent-back']) expect(() => assertOpen({ number: 1, state })).not.toThrow()
  for (const state of ['in-review', 'approved']) expect(() => assertOpen({ number: 1, state })).toThrow(/Revision 1/)
})
