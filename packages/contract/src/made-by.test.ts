import { describe, expect, test } from 'vitest'
import { isOwnTest, isSuppliedByOthers } from './made-by.ts'

describe('where an entered result comes from', () => {
  test.each(['Own test', 'own test, ASTM D6934', 'OWN', 'Own: residue by evaporation'])(
    '%s is of this laboratory',
    (source) => {
      expect(isOwnTest(source)).toBe(true)
    },
  )

  test.each(['Supplier’s certificate 4417', 'Owner’s certificate 12', 'Ownership file', 'Not our own test', ''])(
    '“%s” is of others',
    (source) => {
      expect(isOwnTest(source)).toBe(false)
    },
  )
})

test('what was said of who made it goes before the words of its source', () => {
  expect(isSuppliedByOthers({ madeBy: 'entered', source: 'Three beakers' })).toBe(false)
  expect(isSuppliedByOthers({ madeBy: 'customer', source: 'Own test of the supplier' })).toBe(true)
  expect(isSuppliedByOthers({ madeBy: 'outside', source: 'Own test' })).toBe(true)
  for (const madeBy of [null, undefined]) {
    expect(isSuppliedByOthers({ madeBy, source: 'Own test' })).toBe(false)
    expect(isSuppliedByOthers({ madeBy, source: 'Three beakers' })).toBe(true)
  }
})
