import { expect, test } from 'vitest'
import { readTypedCode } from './typed-code.ts'

test('a code is read as it is typed from paper: small letters, spaces and dashes of any length', () => {
  expect(readTypedCode(' r7kd-4qmx-9t ')).toBe('R7KD-4QMX-9T')
  expect(readTypedCode('R7KD 4QMX 9T')).toBe('R7KD-4QMX-9T')
  expect(readTypedCode('R7KD – 4QMX — 9T')).toBe('R7KD-4QMX-9T')
  expect(readTypedCode('../admin')).toBe('ADMIN')
  expect(readTypedCode('   ')).toBe('')
})
