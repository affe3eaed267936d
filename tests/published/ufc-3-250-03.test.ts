import { builtInSpecifications } from '@curebook/trade/specification/built-in'
import { expect, test } from 'vitest'
import { edgesOf, limitOf } from './guideline-limits.ts'

// Source: UFC 3-250-03 (15 May 2001): aggregate gradation of slurry seal and of micro-surfacing; consistency in appendix C.
test('type I of slurry seal is the one of its table, which A105 shares', () => {
  const printed = {
    '9.5': '100',
    '4.75': '100',
    '2.36': '90-100',
    '1.18': '65-90',
    '0.600': '40-65',
    '0.300': '25-42',
    '0.150': '15-30',
    '0.075': '10-20',
  }
  expect(edgesOf('ufc-3-250-03-2001-slurry', 'Type I')).toEqual(printed)
  expect(edgesOf('issa-a105', 'Type I')).toEqual(printed)
})

test('micro-surfacing has types II and III, as in the guideline, and leaves type I out', () => {
  const micro = builtInSpecifications.find(({ key }) => key === 'ufc-3-250-03-2001-micro')
  expect(Object.keys(micro?.gradationBands ?? {})).toEqual(['Type II', 'Type III'])
  for (const type of ['Type II', 'Type III'])
    expect(edgesOf('ufc-3-250-03-2001-micro', type)).toEqual(edgesOf('issa-a143-2010', type))
})

test('a flow of 1 in is a target and no limit: the consistency is asked for without a number', () => {
  expect(limitOf('ufc-3-250-03-2001-slurry', 'consistency')).toMatchObject({
    value: null,
    condition: expect.stringContaining('25.4 mm'),
  })
})
