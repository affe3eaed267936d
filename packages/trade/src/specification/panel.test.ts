import fc from 'fast-check'
import { expect, test } from 'vitest'
import { adoptSpecification } from './adopt.ts'
import { builtInSpecifications } from './built-in.ts'
import { judgePanel, type PanelOutcome } from './panel.ts'
import type { Specification } from './specification.ts'

function micro(changes: Parameters<typeof adoptSpecification>[1]['changes'] = []): Specification {
  const builtIn = builtInSpecifications.find(({ key }) => key === 'issa-a143-2010')
  const outcome =
    builtIn && adoptSpecification(builtIn, { name: 'Marrowdale', aggregateType: 'Type II', traffic: 'heavy', changes })
  if (!outcome?.ok) throw new Error('The guideline values cannot be adopted.')
  return outcome.specification
}

const good: readonly PanelOutcome[] = [
  { limitKey: 'abrasion-loss-1-hour', value: '296.1', unit: 'g/m²', at: '12 % emulsion', n: 3 },
  { limitKey: 'abrasion-loss-6-day', value: '509.95', unit: 'g/m²', n: 3 },
  { limitKey: 'sand-adhesion', value: '376.431', unit: 'g/m²', n: 2 },
  { limitKey: 'mix-time', value: '171', unit: 's', entered: true },
  { limitKey: 'cohesion-30-min', value: '12.5', unit: 'kg·cm', entered: true },
  { limitKey: 'cohesion-60-min', value: '20.0', unit: 'kg·cm', entered: true },
  { limitKey: 'wet-stripping', value: '95', unit: '%', entered: true },
  { limitKey: 'compatibility', value: '11', unit: 'points', entered: true },
  { limitKey: 'lateral-displacement', value: '2.6', unit: '%', entered: true },
  { limitKey: 'specific-gravity', value: '2.04', unit: '1', entered: true },
  { limitKey: 'sand-equivalent', value: '68', unit: '%', entered: true },
  { limitKey: 'soundness', value: '4', unit: '%', entered: true },
  { limitKey: 'los-angeles-abrasion', value: '21', unit: '%', entered: true },
  { limitKey: 'crushed-particles', value: '100', unit: '%', entered: true },
  { limitKey: 'emulsion-residue', value: '62.6', unit: '%', entered: true },
  { limitKey: 'polymer-solids', value: '3.2', unit: '%', entered: true },
  { limitKey: 'residue-softening-point', value: '59.5', unit: '°C', entered: true },
  { limitKey: 'residue-penetration', value: '66', unit: 'dmm', entered: true },
]

test('every property of the specification has its row, tested or not', () => {
  const { rows, overall, sentence } = judgePanel(micro(), good.slice(0, 3))
  expect(rows.map(({ key, verdict }) => [key, verdict])).toEqual([
    ['abrasion-loss-1-hour', 'pass'],
    ['abrasion-loss-6-day', 'pass'],
    ['sand-adhesion', 'pass'],
    ['mix-time', 'not tested'],
    ['cohesion-30-min', 'not tested'],
    ['cohesion-60-min', 'not tested'],
    ['wet-stripping', 'not tested'],
    ['compatibility', 'not tested'],
    ['lateral-displacement', 'not tested'],
    ['specific-gravity', 'not tested'],
    ['sand-equivalent', 'not tested'],
    ['soundness', 'not tested'],
    ['los-angeles-abrasion', 'not tested'],
    ['crushed-particles', 'not tested'],
    ['emulsion-residue', 'not tested'],
    ['polymer-solids', 'not tested'],
    ['residue-softening-point', 'not tested'],
    ['residue-penetration', 'not tested'],
  ])
  expect(overall).toBe('incomplete')
  expect(sentence).toContain('The panel is not complete. Not tested: mix time; cohesion at 30 min')
  expect(rows[0]).toMatchObject({
    limit: 'at most 538 g/m²',
    margin: '241.9',
    at: '12 % emulsion',
    n: 3,
    entered: false,
  })
  expect(rows[3]).toMatchObject({ limit: 'at least 120 s, at 25 °C', certainty: 'published' })
})

test('a complete panel passes; a failure is a failure though others are not tested', () => {
  expect(judgePanel(micro(), good)).toMatchObject({
    overall: 'pass',
    sentence: 'Every property with a limit meets it.',
  })
  const failing = judgePanel(micro(), [{ limitKey: 'mix-time', value: '119', unit: 's', entered: true }])
  expect(failing.overall).toBe('fail')
  expect(failing.sentence).toContain('Does not meet its limit: mix time. Not tested: abrasion loss, 1-hour soak')
  expect(failing.rows[3]?.sentence).toMatch(/simple acceptance\. Entered, not computed here\.$/)
})

test('a property without a number shows “no limit held”, and a value in another unit decides nothing', () => {
  const changes = [{ limitKey: 'compatibility', value: null, reason: 'contract, table 4' }]
  const panel = judgePanel(micro(changes), good)
  expect(panel.rows.find(({ key }) => key === 'compatibility')).toMatchObject({
    limit: 'no limit held',
    verdict: 'no limit held',
  })
  expect(panel).toMatchObject({ overall: 'pass', sentence: expect.stringContaining('No limit held: compatibility') })
  const feet = good.map((outcome) => (outcome.limitKey === 'sand-adhesion' ? { ...outcome, unit: 'g/ft²' } : outcome))
  expect(judgePanel(micro(), feet).overall).toBe('incomplete')
})

test('what is declared is shown with its value, and neither passes nor fails', () => {
  const en = builtInSpecifications.find(({ key }) => key === 'en-12273-2008')
  const outcome =
    en && adoptSpecification(en, { name: 'EN', aggregateType: 'as declared', traffic: 'light', changes: [] })
  if (!outcome?.ok) throw new Error('The declaration cannot be adopted.')
  const panel = judgePanel(outcome.specification, [{ limitKey: 'wearing', value: '310', unit: 'g/m²', entered: true }])
  expect(panel.rows.find(({ key }) => key === 'wearing')).toMatchObject({
    limit: 'declared, no limit',
    verdict: 'no limit held',
    value: '310',
    margin: null,
  })
  expect(panel.rows.find(({ key }) => key === 'set-time')?.verdict).toBe('not tested')
  expect(panel.overall).toBe('incomplete')
})

test('nothing tested and nothing asked for never read as passing', () => {
  expect(judgePanel(micro(), []).overall).toBe('incomplete')
  expect(judgePanel({ limits: [] }, []).overall).toBe('incomplete')
})

test('whatever is left out, the panel does not pass', () => {
  fc.assert(
    fc.property(fc.subarray([...good], { maxLength: good.length - 1 }), (outcomes) => {
      expect(judgePanel(micro(), outcomes).overall).toBe('incomplete')
    }),
  )
})
