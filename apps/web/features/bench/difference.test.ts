import { expect, test } from 'vitest'
import { differenceOf } from './difference.ts'

test('the running difference is exact, with as many decimals as were weighed', () => {
  expect(differenceOf('780.2', '773.7', 'g')).toEqual({ sense: 'loss', digits: '6.5' })
  expect(differenceOf('780.2 g', 'ST,GS,+ 0737.70 g', 'g')).toEqual({ sense: 'loss', digits: '42.50' })
  expect(differenceOf('365,99', '368.98', 'g')).toEqual({ sense: 'gain', digits: '2.99' })
  expect(differenceOf('760.0', '750.0', 'g')).toEqual({ sense: 'loss', digits: '10.0' })
  expect(differenceOf('760.0', '760', 'g')).toEqual({ sense: 'none', digits: '0.0' })
})
test('a weight in another unit of mass is compared in the unit of the reading', () => {
  expect(differenceOf('780.2', '0.7737 kg', 'g')).toEqual({ sense: 'loss', digits: '6.5' })
})
test('while a weight is half typed there is no difference', () => {
  expect(differenceOf('780.2', '', 'g')).toBeUndefined()
  expect(differenceOf('780.2', '77.', 'g')).toBeUndefined()
})
