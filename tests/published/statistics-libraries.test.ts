import { mean } from '@curebook/trade/statistics/mean'
import { pooledScatter } from '@curebook/trade/statistics/pooled-scatter'
import { range } from '@curebook/trade/statistics/range'
import { standardDeviation } from '@curebook/trade/statistics/standard-deviation'
import fc from 'fast-check'
import jstat from 'jstat'
import { mean as outsideMean, sampleStandardDeviation } from 'simple-statistics'
import { expect, test } from 'vitest'

// Two statistics libraries of others, simple-statistics and jstat, in doubles: they agree with ours to about 12 digits.
const { jStat } = jstat
const digits = fc.integer({ min: 1, max: 2_000_000 }).map((thousandths) => (thousandths / 1000).toFixed(3))
const replicates = fc.array(digits, { minLength: 2, maxLength: 12 })

function agree(ours: number, theirs: number, scale: number) {
  expect(Math.abs(ours - theirs)).toBeLessThanOrEqual(1e-12 * Math.max(1, Math.abs(scale)))
}

test('mean, sample standard deviation and range agree with simple-statistics and jstat', () => {
  fc.assert(
    fc.property(replicates, (values) => {
      const numbers = values.map(Number)
      const largest = Math.max(...numbers)
      agree(mean(values).toNumber(), outsideMean(numbers), largest)
      agree(mean(values).toNumber(), jStat.mean(numbers), largest)
      agree(standardDeviation(values).toNumber(), sampleStandardDeviation(numbers), largest)
      agree(standardDeviation(values).toNumber(), jStat.stdev(numbers, true), largest)
      agree(range(values).toNumber(), jStat.range(numbers), largest)
    }),
  )
})

test('pooled scatter agrees with the pooled standard deviation of jstat, on logarithms and on ratios to the mean', () => {
  fc.assert(
    fc.property(fc.array(replicates, { minLength: 1, maxLength: 6 }), (groups) => {
      const logs = groups.map((group) => group.map((value) => Math.log(Number(value))))
      const ratios = groups.map((group) => group.map((value) => Number(value) / outsideMean(group.map(Number))))
      agree(Number(pooledScatter(groups, 'log').value), jStat.pooledstdev(logs), 10)
      agree(Number(pooledScatter(groups, 'relative').value), jStat.pooledstdev(ratios), 10)
    }),
  )
})
