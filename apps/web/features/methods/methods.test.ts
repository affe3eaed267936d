import type { Edition } from '@curebook/contract/methods'
import type { BuiltInSpecification, Limit, Specification } from '@curebook/contract/specifications'
import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { cohesion } from '@curebook/trade/methods/cohesion'
import { wetTrackAbrasion1h } from '@curebook/trade/methods/wet-track-abrasion'
import { loadedWheelSandAdhesion } from '@curebook/trade/methods/loaded-wheel-sand-adhesion'
import { displayDigits, displayQuantity } from '@curebook/trade/quantity/display'
import { describe, expect, test } from 'vitest'
import words from '../../messages/en/methods.json' with { type: 'json' }
import { readEditionForm } from './edition-form.ts'
import { boundsOf, changesIn, editionsToCopy, editionToChange, shownEdition } from './editions.ts'
import { limitsAnswered } from './limits-answered.ts'
import { certaintyCounts, groupsOf, propertyName } from './method-groups.ts'
import { stepLike } from './step-like.ts'
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
  ({
    ...{ id, editionKey: 'one', revision: 1, inForce: false, superseded: false, standing: 'beside', parameters },
    ...text,
  }) as Edition

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
    const builtIn = { one: parameters, other: { ...parameters, 'cure-earliest': cure } }
    expect(changesIn(own, builtIn)).toBe(1)
    expect(changesIn({ ...own, editionKey: 'other' }, builtIn)).toBe(0)
    const bound = boundsOf(own, builtIn).find(({ key }) => key === 'cure-earliest')
    expect(bound).toMatchObject({ value: '12', builtIn: { value: '15', unit: 'h' } })
    expect(changesIn(first, builtIn)).toBe(0)
  })
})

describe('the list and the page of a method', () => {
  const batchLike = { form: 'batch', place: 'series', madeFrom: 'materials' } as const
  const disc = { form: 'disc', place: 'series', madeFrom: 'batch' } as const
  const cup = { form: 'cup', place: 'panel', madeFrom: 'batch' } as const
  const loose = { form: 'loose', place: 'panel', madeFrom: 'materials' } as const
  test('methods stand in groups, and a group without a method is left out', () => {
    expect(groupsOf([loose, disc, batchLike, cup]).map(({ key }) => key)).toEqual([
      'batch',
      'series',
      'panel',
      'materials',
    ])
    expect(groupsOf([cup, { ...cup, form: 'ring' }])).toMatchObject([{ key: 'panel', methods: [cup, {}] }])
  })
  test('every shipped method has its group in words', () => {
    for (const { key } of groupsOf(builtInMethods)) expect(words).toHaveProperty([`methods.group.${key}`])
    for (const { form } of builtInMethods) expect(words).toHaveProperty([`methods.form.${form}`])
  })
  test('bounds are counted by how sure they are', () => {
    const counts = certaintyCounts(parameters)
    expect(Object.values(counts).reduce((sum, one) => sum + one, 0)).toBe(Object.keys(parameters).length)
    expect(certaintyCounts({})).toEqual({ published: 0, 'common practice': 0, 'from memory': 0 })
  })
  test('a property is said in words', () => {
    expect(propertyName({ property: 'abrasion-loss', soak: '1-hour' })).toBe('Abrasion loss, 1-hour soak')
    expect(propertyName({ property: 'cohesion-30-min' })).toBe('Cohesion at 30 min')
    expect(propertyName({ property: 'cohesion-abrasion-loss-3-hours' })).toBe('Cohesion abrasion loss at 3 hours')
  })
  test('a change starts from the edition in force, or from one that stands beside it', () => {
    const [inForce, beside, replaced] = [
      edition('in-force', { standing: 'in-force', inForce: true }),
      edition('beside', {}),
      edition('replaced', { standing: 'replaced', superseded: true }),
    ]
    expect(editionsToCopy([beside, replaced, inForce]).map(({ id }) => id)).toEqual(['in-force', 'beside'])
  })
  test('a limit that reads the same for several types and classes is one row; of own specifications the current ones', () => {
    const limit = (property: string, value: string) =>
      ({ property, soak: null, label: property, sense: 'max', value, upper: null, unit: 'g/m²' }) as Limit
    const variant = (aggregateType: string, traffic: string, value: string) => ({
      ...{ aggregateType, traffic },
      limits: [limit('sand-adhesion', value), limit('mix-time', '120')],
    })
    const builtIn = {
      ...{ name: 'Guideline', traffics: ['heavy', 'light'] },
      variants: [
        variant('Type II', 'heavy', '538'),
        variant('Type III', 'heavy', '538'),
        variant('Type II', 'light', '700'),
      ],
    } as unknown as BuiltInSpecification
    const own = { ...variant('Type II', 'heavy', '500'), name: 'Ours', version: 2 }
    const rows = limitsAnswered(
      [{ property: 'sand-adhesion', result: 'adhesion' }],
      [builtIn],
      [{ ...own, standing: 'current' } as Specification, { ...own, standing: 'superseded' } as Specification],
    )
    const [ii, iii] = ['Type II', 'Type III']
    expect(rows.map(({ limit: { value }, holders }) => [value, holders])).toEqual([
      ['538', [{ name: 'Guideline', version: null, aggregateTypes: [ii, iii], traffics: ['heavy'] }]],
      ['700', [{ name: 'Guideline', version: null, aggregateTypes: [ii], traffics: ['light'] }]],
      ['500', [{ name: 'Ours', version: 2, aggregateTypes: [ii], traffics: ['heavy'] }]],
    ])
    const copy = { ...own, limits: [limit('sand-adhesion', '538')], standing: 'current' } as Specification
    const [shared] = limitsAnswered([{ property: 'sand-adhesion', result: 'adhesion' }], [builtIn], [copy])
    expect(shared?.holders.map(({ name }) => name)).toEqual(['Guideline', 'Ours'])
  })
  test('a step that repeats an earlier one says so, with what is read otherwise', () => {
    const at = (key: string) => cohesion.steps.findIndex((step) => step.key === key)
    expect(stepLike(cohesion.steps, at('twist-20'))).toBeUndefined()
    const later = stepLike(cohesion.steps, at('twist-90'))
    expect(later?.number).toBe(at('twist-20') + 1)
    expect(later?.otherReadings.length).toBeGreaterThan(0)
    // Two weighings of one disc are two things though both are weighings.
    const weighed = wetTrackAbrasion1h.steps.findIndex(({ key }) => key === 'weigh-after')
    expect(stepLike(wetTrackAbrasion1h.steps, weighed)).toBeUndefined()
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
