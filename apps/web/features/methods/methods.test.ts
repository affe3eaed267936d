import type { Edition } from '@curebook/contract/methods'
import { wetTrackAbrasion1h } from '@curebook/trade/methods/wet-track-abrasion'
import { loadedWheelSandAdhesion } from '@curebook/trade/methods/loaded-wheel-sand-adhesion'
import { displayDigits, displayQuantity } from '@curebook/trade/quantity/display'
import { describe, expect, test } from 'vitest'
import words from '../../messages/en/methods.json' with { type: 'json' }
import { readEditionForm } from './edition-form.ts'
import { boundsOf, changesIn, editionToChange, shownEdition } from './editions.ts'
import { conditionValue, readingPhrases, windowSentence } from './procedure-words.ts'

const say = (key: string, values: Readonly<Record<string, string | number>> = {}) =>
  Object.entries(values).reduce(
    (text, [name, value]) => text.replaceAll(`{${name}}`, String(value)),
    (words as Record<string, string>)[key] ?? key,
  )
const format = {
  digits: (digits: string) => displayDigits(digits),
  quantity: (digits: string, unit?: string) =>
    unit === undefined || unit === 'count'
      ? displayDigits(digits)
      : displayQuantity(digits, unit).replace('\u00a0', ' '),
}
const parameters = wetTrackAbrasion1h.editions[0]?.parameters ?? {}
const edition = (id: string, text: Partial<Edition>): Edition =>
  ({ id, editionKey: 'one', revision: 1, inForce: false, superseded: false, parameters, ...text }) as Edition

describe('a method in words', () => {
  const sentenceOf = (key: string) => {
    const window = wetTrackAbrasion1h.windows.find((one) => one.key === key)
    return window && windowSentence(window, wetTrackAbrasion1h.steps, parameters, format, say)
  }
  test('a window names both acts and its durations', () => {
    expect(sentenceOf('soak')).toBe('“Run started”: at least 60 min and at most 75 min after “In the bath”.')
    expect(sentenceOf('cast-to-oven')).toBe('“In the oven”: at most 3 h after “Cast”.')
  })
  test('a condition stands with its tolerance', () => {
    const cure = wetTrackAbrasion1h.steps.find(({ key }) => key === 'cure')?.conditions[0]
    expect(cure && conditionValue(cure, parameters, format)).toBe('60 ± 3 °C')
    expect(conditionValue({ label: 'x', targetParameter: 'none' }, parameters, format)).toBeUndefined()
  })
  test('every window and condition of the shipped methods can be said', () => {
    for (const method of [wetTrackAbrasion1h, loadedWheelSandAdhesion]) {
      const held = method.editions[0]?.parameters ?? {}
      for (const window of method.windows)
        expect(windowSentence(window, method.steps, held, format, say)).toMatch(/^“.+ after “.+”\.$/)
      for (const condition of method.steps.flatMap(({ conditions }) => conditions))
        expect(conditionValue(condition, held, format)).toBeDefined()
    }
  })
  test('a reading says its unit, its smallest step and outside what it is asked about', () => {
    const mass = wetTrackAbrasion1h.steps.find(({ key }) => key === 'weigh-before')?.readings[0]
    expect(mass && readingPhrases(mass, parameters, format, say)).toEqual([
      'in g',
      'smallest step 0.1 g',
      'asked about outside 680 to 860 g (common practice, no source)',
      'read on a balance',
    ])
  })
})

describe('editions of a method', () => {
  const first = edition('first', { superseded: true, inForce: true })
  const second = edition('second', { revision: 2 })
  test('the address names one, else the one in force is shown', () => {
    expect(shownEdition([second, first], 'second')?.id).toBe('second')
    expect(shownEdition([second, first], 'unknown')?.id).toBe('first')
    expect(shownEdition([], '')).toBeUndefined()
  })
  test('a change starts from the newest one, also while an older one is in force', () => {
    expect(editionToChange([second, first], '')?.id).toBe('second')
  })
  test('a bound that the laboratory changed keeps the built-in value beside it', () => {
    const cure = { ...parameters['cure-earliest']!, value: '12', source: 'Own trials, 2026' }
    const own = edition('own', { parameters: { ...parameters, 'cure-earliest': cure } })
    expect(changesIn(own, parameters)).toBe(1)
    const bound = boundsOf(own, parameters).find(({ key }) => key === 'cure-earliest')
    expect(bound).toMatchObject({ value: '12', builtIn: { value: '15', unit: 'h' } })
    expect(changesIn(first, parameters)).toBe(0)
  })
})

describe('the form that changes a bound', () => {
  test('each changed bound has its own value, source and certainty', () => {
    const form = new FormData()
    const fields = {
      'changes.0.value': '12,5 h',
      'changes.0.source': 'Own trials',
      'changes.0.certainty': 'common practice',
      effectiveFrom: '2026-04-01',
      reason: ' Shorter shift ',
    }
    for (const [name, value] of Object.entries(fields)) form.set(name, value)
    const read = readEditionForm(form, { id: 'id', copiedFrom: 'first', bounds: [{ key: 'cure-earliest', unit: 'h' }] })
    expect(read).toEqual({
      id: 'id',
      copiedFrom: 'first',
      changes: [{ parameter: 'cure-earliest', value: '12.5', source: 'Own trials', certainty: 'common practice' }],
      effectiveFrom: '2026-04-01',
      reason: 'Shorter shift',
    })
  })
})
