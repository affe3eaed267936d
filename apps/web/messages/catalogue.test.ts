import { readdirSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { fileURLToPath } from 'node:url'
import { openSync } from 'fontkit'
import { describe, expect, test } from 'vitest'

const web = fileURLToPath(new URL('..', import.meta.url))
const catalogues = readdirSync(`${web}/messages/en`).map((file) => ({
  feature: file.replace('.json', ''),
  words: JSON.parse(readFileSync(`${web}/messages/en/${file}`, 'utf8')) as Record<string, string>,
}))
const all = new Map(catalogues.flatMap(({ words }) => Object.entries(words)))

const sources = ['app', 'components', 'features', 'lib'].flatMap((folder) =>
  readdirSync(`${web}/${folder}`, { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.tsx?$/.test(file) && !file.includes('.test.'))
    .map((file) => readFileSync(`${web}/${folder}/${file}`, 'utf8')),
)
const code = sources.join('\n')
/** Keys written out, in `words('…')` or kept in a table of keys. */
const written = new Set([...code.matchAll(/'([a-z][a-zA-Z0-9]*(?:\.[a-zA-Z0-9-]+)+)'/g)].map(([, key]) => key ?? ''))
const asked = new Set(
  [...code.matchAll(/\bwords\(((?:[^()]|\([^()]*\))*)\)/g)].flatMap(([, call]) =>
    [...(call ?? '').matchAll(/'([a-zA-Z]+\.[^']+)'/g)].map(([, key]) => key ?? ''),
  ),
)
/** Beginnings of keys with a changing end. */
const beginnings = [...code.matchAll(/`([a-z][a-zA-Z0-9]*\.[a-zA-Z0-9.-]*)\$\{/g)].map(
  ([, beginning]) => beginning ?? '',
)

describe('the catalogue', () => {
  test('has every key that a screen asks for', () => {
    expect([...asked].filter((key) => !all.has(key))).toEqual([])
  })
  test('has a key for every beginning that a screen asks for', () => {
    expect(beginnings.filter((beginning) => ![...all.keys()].some((key) => key.startsWith(beginning)))).toEqual([])
  })
  test('has no key that nothing asks for', () => {
    expect(
      [...all.keys()].filter((key) => !written.has(key) && !beginnings.some((beginning) => key.startsWith(beginning))),
    ).toEqual([])
  })
  test('says each key once', () => {
    expect(all.size).toBe(catalogues.reduce((sum, { words }) => sum + Object.keys(words).length, 0))
  })
  test('shouts nowhere', () => {
    expect([...all].filter(([, text]) => text.includes('!')).map(([key]) => key)).toEqual([])
  })
})

describe('every sign of the catalogue', () => {
  const require = createRequire(import.meta.url)
  const fonts = [
    require.resolve('@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-wght-normal.woff2'),
    `${web}/fonts/curebook-signs.ttf`,
  ].map((path) => openSync(path))
  const drawn = (sign: string) => fonts.some((font) => font.hasGlyphForCodePoint(sign.codePointAt(0) ?? 0))

  test.each(catalogues)('of $feature is drawn by our fonts', ({ words }) => {
    const missing = [...new Set(Object.values(words).join(''))].filter((sign) => sign !== '\n' && !drawn(sign))
    expect(missing).toEqual([])
  })
  test('and of numbers and units is too', () => {
    expect([...'≥≤µ√Σσ→−×÷±²³°·½ñ0123456789,.%'].filter((sign) => !drawn(sign))).toEqual([])
  })
})
