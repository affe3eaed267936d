import { describe, expect, it } from 'vitest'
import { cookieOf, hashOf, keyOf, newCode, newKey, plainCode } from './wall-key.ts'

describe('the cookie of a wall screen', () => {
  it('goes to the wall alone, to no script and from no other site', () => {
    const key = newKey()
    expect(cookieOf(key, true)).toBe(
      `__Secure-curebook.wall=${key}; Max-Age=34560000; Path=/api/wall; HttpOnly; SameSite=Strict; Secure`,
    )
    expect(cookieOf(null, false)).toBe('curebook.wall=; Max-Age=0; Path=/api/wall; HttpOnly; SameSite=Strict')
  })

  it('is read back among others, and only where it can be a key', () => {
    const key = newKey()
    expect(keyOf(`a=b; curebook.wall=${key}; c=d`)).toBe(key)
    expect(keyOf(`__Secure-curebook.wall=${key}`)).toBe(key)
    expect(keyOf('curebook.wall=short')).toBeUndefined()
    expect(keyOf(`curebook.wall.other=${key}`)).toBeUndefined()
    expect(keyOf(undefined)).toBeUndefined()
  })
})

describe('a pairing code', () => {
  it('has eight signs that are not taken for one another, and is kept as the digest of them without the dash', () => {
    const codes = Array.from({ length: 50 }, newCode)
    for (const { shown, hash } of codes) {
      expect(shown).toMatch(/^[A-HJKMNP-Z2-9]{4}-[A-HJKMNP-Z2-9]{4}$/)
      expect(hash).toEqual(hashOf(plainCode(shown.toLowerCase())))
    }
    expect(new Set(codes.map(({ shown }) => shown)).size).toBe(50)
  })
})
