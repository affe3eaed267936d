import { expect, test } from 'vitest'
import { builtInSpecifications } from '@curebook/trade/specification/built-in'
import { edgesOf, limitOf } from './guideline-limits.ts'

// Source: NCHRP Synthesis 411 (2010), mix design of micro-surfacing: at least 120 s of mix time at 25 °C.
test('the built-in mix time of micro-surfacing is the published one', () => {
  expect(limitOf('issa-a143-2010', 'mix-time')).toMatchObject({
    value: '120',
    unit: 's',
    sense: 'min',
    condition: 'at 25 °C',
    certainty: 'published',
  })
})

// Table 18, aggregate gradation for types II and III with stockpile tolerances, citing ISSA (2010).
test('types II and III of micro-surfacing are those of table 18', () => {
  expect(Object.values(edgesOf('issa-a143-2010', 'Type II'))).toEqual([
    '100',
    '90-100',
    '65-90',
    '45-70',
    '30-50',
    '18-30',
    '10-21',
    '5-15',
  ])
  expect(Object.values(edgesOf('issa-a143-2010', 'Type III'))).toEqual([
    '100',
    '70-90',
    '45-70',
    '28-50',
    '19-34',
    '12-25',
    '7-18',
    '5-15',
  ])
})

test('stockpile tolerances of table 18: ± 5 to No. 30, ± 4 at No. 50, ± 3 at No. 100, ± 2 at No. 200', () => {
  const band = builtInSpecifications.find(({ key }) => key === 'issa-a143-2010')?.gradationBands?.['Type II']
  expect(band?.sieves.map(({ tolerance }) => tolerance)).toEqual([null, '5', '5', '5', '5', '4', '3', '2'])
})
