import { expect, test } from 'vitest'
import { builtInSpecifications } from './built-in.ts'
import { bandWords, checkGradation } from './gradation-band.ts'

const band = builtInSpecifications.find(({ key }) => key === 'issa-a143-2010')!.gradationBands!['Type II']!
const sizes = ['9.5', '4.75', '2.36', '1.18', '0.6', '0.3', '0.15', '0.075']
const found = (...passing: readonly string[]) => passing.map((share, n) => ({ size: sizes[n]!, passing: share }))
const inside = ['100', '94', '72', '50', '36', '24', '15', '9.6'] as const

test('a gradation is held against the band sieve by sieve, 0.6 mm being the sieve of 0.600 mm', () => {
  const check = checkGradation(band, found(...inside))
  expect(check).toMatchObject({ verdict: 'inside', sentence: 'The gradation lies inside the band on every sieve.' })
  expect(check.rows[4]).toMatchObject({
    label: 'No. 30, 0.600 mm',
    from: '30',
    to: '50',
    passing: '36',
    tolerance: '5',
  })
})

test('the edges are inside; one hundredth beyond is out, and named', () => {
  const edge = checkGradation(band, found('100', '90', '65', '45', '30', '18', '10', '15'))
  expect(edge.verdict).toBe('inside')
  const out = checkGradation(band, found('100', '94', '72', '50', '36', '24', '15', '15.01'))
  expect(out).toMatchObject({
    verdict: 'outside',
    sentence: 'The gradation lies outside the band at No. 200, 0.075 mm with 15.01 % (5 to 15 %).',
  })
  expect(out.rows.filter(({ verdict }) => verdict === 'outside')).toHaveLength(1)
})

test('a sieve that was not used is not guessed', () => {
  const short = checkGradation(band, found(...inside.slice(0, 6)))
  expect(short).toMatchObject({ verdict: 'incomplete', sentence: expect.stringContaining('Not tested: No. 100') })
  expect(checkGradation(band, []).sentence).toBe('No sieve of the band is among those that were entered.')
  const outAndShort = checkGradation(band, found('100', '80'))
  expect(outAndShort.verdict).toBe('outside')
  expect(outAndShort.sentence).toContain('Not tested: No. 8')
})

test('a band is told with the laboratory’s decimal sign', () => {
  expect(bandWords({ from: '100', to: '100' })).toBe('100 %')
  expect(bandWords({ from: '7.5', to: '18' }, ',')).toBe('7,5 to 18 %')
})
