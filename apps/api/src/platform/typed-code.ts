import { createHash, randomInt } from 'node:crypto'

/** Without I, L, O, 0 and 1, which are taken for one another across a room. */
const signs = 'ABCDEFGHJKMNPQRSTUVWXYZ23456789'
const signsInCode = 8

/** A code as it is read out, `7KDM-4QX9`, and its digest; 31⁸ of them within ten minutes and limited attempts. */
export function newCode(): { shown: string; hash: Buffer } {
  const code = Array.from({ length: signsInCode }, () => signs[randomInt(signs.length)]).join('')
  return { shown: `${code.slice(0, 4)}-${code.slice(4)}`, hash: hashOf(code) }
}

/** A code as typed: letter case, spaces and dashes do not matter. */
export function plainCode(typed: string): string {
  return typed.toUpperCase().replaceAll(/[^A-Z0-9]/g, '')
}

export function hashOf(secret: string): Buffer {
  return createHash('sha256').update(secret).digest()
}
