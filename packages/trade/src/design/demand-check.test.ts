import { expect, test } from 'vitest'
import { round } from '../quantity/rounding.ts'
import { demandRows, type Arrived } from './demand-check.ts'
import type { Demand } from './demand.ts'

// A made-up design of 32 discs and 15 strips, 5.9 % scalped; totals by arithmetic done elsewhere (demand.test.ts).
const demand: Demand = {
  totals: { aggregate: '30100', emulsion: '3596', filler: '301', water: '3010', additive: '60.2' },
  forms: [
    { form: 'disc', batches: 32, fractionUsed: 'passing 4.75 mm', aggregateG: '25600', wholeAggregateG: '27205.1009' },
    { form: 'strip', batches: 15, fractionUsed: '', aggregateG: '4500', wholeAggregateG: '4500' },
  ],
}
const arrived: Record<'aggregate' | 'emulsion' | 'filler' | 'additive' | 'water', Arrived> = {
  aggregate: { massG: '74200', byVolume: false },
  emulsion: { massG: '10000', byVolume: true },
  filler: { massG: '250', byVolume: false },
  additive: null,
  water: { massG: '10000', byVolume: true },
}

test('whole aggregate and the other tests count: 39.7 kg of aggregate and 4.5 kg of emulsion', () => {
  const rows = Object.fromEntries(demandRows(demand, arrived).map((row) => [row.component, row]))
  expect(round(rows.aggregate!.neededG, 0, 'half-even')).toBe('39705')
  expect(rows.emulsion).toMatchObject({ seriesG: '3596', otherG: '900', neededG: '4496', shortG: '0', byVolume: true })
})

test('what is short is said in grams, and what is not on record is not called enough', () => {
  const rows = Object.fromEntries(demandRows(demand, arrived).map((row) => [row.component, row]))
  expect(rows.filler).toMatchObject({ neededG: '301', arrivedG: '250', shortG: '51' })
  expect(rows.additive).toMatchObject({ arrivedG: null, shortG: null })
})
