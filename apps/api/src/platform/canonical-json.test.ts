import { describe, expect, test } from 'vitest'
import { canonicalJson, digestOf, sha256 } from './canonical-json.ts'

describe('canonical JSON', () => {
  test('follows the example of RFC 8785, 3.2.3: keys by UTF-16 code units', () => {
    const value = {
      '\u20ac': 'Euro Sign',
      '\r': 'Carriage Return',
      '\ufb33': 'Hebrew Letter Dalet With Dagesh',
      '1': 'One',
      '\ud83d\ude00': 'Emoji: Grinning Face',
      '\u0080': 'Control',
      '\u00f6': 'Latin Small Letter O With Diaeresis',
    }
    expect(Object.values(JSON.parse(canonicalJson(value)) as object)).toHaveLength(7)
    expect(canonicalJson(value)).toBe(
      '{"\\r":"Carriage Return","1":"One","\u0080":"Control","ö":"Latin Small Letter O With Diaeresis","€":"Euro Sign","😀":"Emoji: Grinning Face","\ufb33":"Hebrew Letter Dalet With Dagesh"}',
    )
  })

  test('writes numbers and strings as ECMAScript does (RFC 8785, 3.2.2)', () => {
    expect(canonicalJson([333333333.33333329, 1e30, 4.5, 2e-3, 1e-27, -0])).toBe(
      '[333333333.3333333,1e+30,4.5,0.002,1e-27,0]',
    )
    expect(canonicalJson('\u20ac$\u000F\u000aA\'\u0042\u0022\u005c\\"\u002f')).toBe('"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"')
  })

  test('leaves out what is undefined, keeps null, and has no blanks', () => {
    expect(canonicalJson({ b: null, a: undefined, c: [true, false] })).toBe('{"b":null,"c":[true,false]}')
  })

  test('refuses what JSON cannot say', () => {
    expect(() => canonicalJson(Number.NaN)).toThrow(RangeError)
    expect(() => canonicalJson(Infinity)).toThrow(RangeError)
    expect(() => canonicalJson('\ud800')).toThrow(RangeError)
    expect(() => canonicalJson({ at: new Date() as never })).toThrow('plain values')
  })

  test('the same content has the same digest in whatever order it was made', () => {
    expect(digestOf({ b: '1', a: ['x'] })).toEqual(digestOf({ a: ['x'], b: '1' }))
    expect(sha256('').toString('hex')).toBe('e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855')
  })
})
