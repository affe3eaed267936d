import { expect, test } from 'vitest'
import { apartFromTarget } from './as-weighed.ts'

test('an over-poured mix is spoken of with the content that was weighed', () => {
  // 98.9 g on 799.8 g of dry aggregate, aimed at 12 %.
  expect(apartFromTarget('12', '12.365591397849462')).toBe(
    'over the 12 % of emulsion aimed at: 12.37 % as weighed, and used as weighed; usual is within 1 % of the target, common practice, no source',
  )
  expect(apartFromTarget('12', '11.8')).toMatch(/^under the 12 %/)
})

test('one per cent of the target itself is still usual', () => {
  expect(apartFromTarget('12', '12.12')).toBeNull()
  expect(apartFromTarget('12', '11.88')).toBeNull()
})
