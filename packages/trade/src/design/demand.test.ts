import { expect, test } from 'vitest'
import { demandOf } from './demand.ts'
import { planSeries, type Series } from './series.ts'

function series(waterPercent = '10'): Series {
  const outcome = planSeries({
    kind: 'full',
    contents: ['10', '11', '12', '13', '14'].map((emulsionPercent) => ({
      emulsionPercent,
      waterPercent,
      fillerPercent: '1',
      additivePercent: '0.2',
    })),
    methods: [
      {
        methodKey: 'wet-track-abrasion-1h',
        form: 'disc',
        replicates: 6,
        spares: [
          { emulsionPercent: '10', count: 1 },
          { emulsionPercent: '12', count: 1 },
        ],
      },
      { methodKey: 'loaded-wheel-sand-adhesion', form: 'strip', replicates: 3, spares: [] },
    ],
  })
  if (!outcome.ok) throw new Error('The series of this test cannot be planned.')
  return outcome.series
}
const batches = {
  disc: { dryAggregateG: '800', fractionUsed: 'passing 4.75 mm', scalpedPercent: '5.9' },
  strip: { dryAggregateG: '300' },
}

test('the demand of a series is 32 discs of 800 g and 15 strips of 300 g', () => {
  const outcome = demandOf(series(), batches, '0')
  expect(outcome).toMatchObject({
    demand: {
      totals: { aggregate: '30100', emulsion: '3596', filler: '301', water: '3010', additive: '60.2' },
      forms: [
        { form: 'disc', batches: 32, aggregateG: '25600', wholeAggregateG: expect.stringMatching(/^27205\.1/) },
        { form: 'strip', batches: 15, aggregateG: '4500', wholeAggregateG: '4500' },
      ],
    },
  })
})

test('a batch that cannot be, or a form without a batch size, refuses the demand with the reason', () => {
  expect(demandOf(series('1'), batches, '3.1')).toMatchObject({
    ok: false,
    sentence: expect.stringContaining('more than the 8 g wanted'),
  })
  expect(demandOf(series(), { disc: batches.disc }, '0')).toMatchObject({
    ok: false,
    sentence: expect.stringContaining('a strip is not on record'),
  })
})
