import { mean } from '@curebook/trade/statistics/mean'
import { range } from '@curebook/trade/statistics/range'
import { standardDeviation } from '@curebook/trade/statistics/standard-deviation'
import { expect, test } from 'vitest'

// Source: NIST/SEMATECH e-Handbook of Statistical Methods.

test('section 1.3.5.17, eight mass spectrometer results: mean 206.43375 and standard deviation 15.852564', () => {
  const values = ['199.31', '199.53', '200.19', '200.82', '201.92', '201.95', '202.18', '245.57']
  expect(mean(values).toFixed()).toBe('206.43375')
  expect(standardDeviation(values).toFixed(6)).toBe('15.852564')
})

test('section 6.3.2.2, ten batches: mean 50.81 and mean moving range 1.8778', () => {
  const values = ['49.6', '47.6', '49.9', '51.3', '47.8', '51.2', '52.6', '52.4', '53.6', '52.1']
  const moving = values.slice(1).map((value, index) => range([value, values[index] ?? '']))
  expect(mean(values).toFixed()).toBe('50.81')
  expect(moving.map((each) => each.toFixed())).toEqual(['2', '2.3', '1.4', '3.5', '3.4', '1.4', '0.2', '1.2', '1.5'])
  expect(mean(moving).toFixed(4)).toBe('1.8778')
})
