import { expect, test } from 'vitest'
import { compareDigits } from '../quantity/digit-conversion.ts'
import { usualEmulsionTemperature, usualInputs } from './usual-inputs.ts'

test('a residue whose point slipped is unusual; certificates of slurry and micro-surfacing emulsions are not', () => {
  const { from, to } = usualInputs.residue
  const isUsual = (residue: string) => compareDigits(residue, from) >= 0 && compareDigits(residue, to) <= 0
  expect(['57', '62.6', '65', '50', '72'].every(isUsual)).toBe(true)
  expect(['6.26', '49.9', '72.1', '626'].some(isUsual)).toBe(false)
})

test('each span goes upwards and says that it has no source', () => {
  for (const { from, to, source } of [...Object.values(usualInputs), usualEmulsionTemperature]) {
    expect(compareDigits(from, to)).toBeLessThan(0)
    expect(source).toBe('common practice, no source')
  }
})
