import { create } from 'qrcode'
import { expect, it } from 'vitest'
import { codeSquare } from './code-square.ts'

it('draws each dark cell of the square once and nothing else', () => {
  const address = 'otpauth://totp/Curebook:ada@ternhollow.example?secret=JBSWY3DPEHPK3PXP&issuer=Curebook'
  const { size, path } = codeSquare(address)
  const { modules } = create(address, { errorCorrectionLevel: 'M' })
  expect(size).toBe(modules.size)
  const drawn = [...path.matchAll(/M(\d+) (\d+)h1v1h-1z/g)].map(([, x, y]) => Number(y) * size + Number(x))
  const dark = Array.from({ length: size * size }, (_, cell) => cell).filter((cell) =>
    modules.get(Math.floor(cell / size), cell % size),
  )
  expect(drawn).toEqual(dark)
})
