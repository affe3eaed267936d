import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'

const css = readFileSync(new URL('./tokens.css', import.meta.url), 'utf8')
const palette = new Map(
  [...css.matchAll(/--([a-z0-9-]+): light-dark\((#[0-9a-f]{6}), (#[0-9a-f]{6})\)/g)].map(([, name, day, night]) => [
    name,
    { day, night },
  ]),
)

/** Relative luminance and ratio, WCAG 2.2, definitions of "relative luminance" and "contrast ratio". */
function luminance(hex: string): number {
  const channel = (at: number) => {
    const share = parseInt(hex.slice(at, at + 2), 16) / 255
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4
  }
  return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5)
}
function contrast(one: string, other: string): number {
  const [high = 0, low = 0] = [luminance(one), luminance(other)].sort((a, b) => b - a)
  return (high + 0.05) / (low + 0.05)
}
function colour(name: string, theme: 'day' | 'night'): string {
  const found = palette.get(name)?.[theme]
  if (found === undefined) throw new Error(`tokens.css has no colour --${name}`)
  return found
}

const grounds = ['ground', 'panel', 'sunk']
const textPairs: [string, string][] = [
  ...grounds.flatMap((ground): [string, string][] =>
    ['ink', 'ink-quiet', 'accent', 'settled', 'closing', 'lost'].map((ink) => [ink, ground]),
  ),
  ['on-accent', 'accent'],
  ['on-lost', 'lost'],
  ...['accent', 'settled', 'closing', 'lost'].flatMap((tone): [string, string][] => [
    [tone, `${tone}-wash`],
    ['ink', `${tone}-wash`],
  ]),
]
const strokePairs: [string, string][] = [
  ...grounds.map((ground): [string, string] => ['edge', ground]),
  ...['series-1', 'series-2', 'series-3', 'series-4'].flatMap((series): [string, string][] =>
    grounds.map((ground) => [series, ground]),
  ),
]

describe.each(['day', 'night'] as const)('the palette by %s', (theme) => {
  test.each(textPairs)('text in %s on %s reads at 4.5 to 1 or better', (ink, ground) => {
    expect(contrast(colour(ink, theme), colour(ground, theme))).toBeGreaterThanOrEqual(4.5)
  })
  test.each(strokePairs)('a line in %s on %s shows at 3 to 1 or better', (line, ground) => {
    expect(contrast(colour(line, theme), colour(ground, theme))).toBeGreaterThanOrEqual(3)
  })
})
