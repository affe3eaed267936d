import { describe, expect, test } from 'vitest'
import { isOwnTest } from './designs.ts'

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
