import { createHash, randomBytes } from 'node:crypto'

/** Signs of a check code: no look-alikes, so that it can be typed from paper. */
const signs = 'ABCDEFGHJKMNPQRSTUVWXYZ23456789'
const length = 24

/** A new check code, printed on the report in groups of four: 24 signs, about 119 bits. */
export function newCheckCode(): string {
  const picked: string[] = []
  while (picked.length < length)
    // Only bytes below a multiple of the number of signs, so that every sign is as likely.
    for (const byte of randomBytes(length))
      if (byte < 248 && picked.length < length) picked.push(signs[byte % signs.length]!)
  return picked.join('').replace(/(.{4})(?=.)/g, '$1-')
}

/** The code as typed by somebody: spaces, hyphens and small letters do not matter. */
export function plainCode(typed: string): string {
  return typed.toUpperCase().replace(/[^A-Z0-9]/g, '')
}

/** What is kept of a code: only who has the report has the code. */
export function codeHash(code: string): Buffer {
  return createHash('sha256').update(plainCode(code), 'utf8').digest()
}
