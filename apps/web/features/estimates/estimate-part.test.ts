import type { Design } from '@curebook/contract/designs'
import type { Estimates } from '@curebook/contract/estimates'
import { estimatesOf } from '@curebook/trade/estimates/estimates'
import { QueryClient, QueryClientProvider } from '@tanstack/react-query'
import { createElement as element } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { IntlProvider } from 'react-intl'
import { describe, expect, test } from 'vitest'
import { loadCatalogue } from '#lib/catalogue.ts'
import { LaboratoryProvider } from '#lib/laboratory-provider.tsx'
import own from '../../messages/en/estimates.json' with { type: 'json' }
import { asksTheSame, questionOf } from './estimate-form.ts'
import { EstimateFor, EstimatePart } from './estimate-part.tsx'
import { estimateQueries } from './estimates.queries.ts'

const design = { id: 'd1', revision: 1, revisionId: 'r1' } as Design
const laboratory = {
  id: 'l1',
  shortName: 'lab',
  name: 'Laboratory',
  zone: 'UTC',
  decimalSign: 'comma',
  language: 'en',
  actions: [],
  me: { membershipId: 'm1', roles: ['engineer'] },
} as unknown as Parameters<typeof LaboratoryProvider>[0]['view']

const messages = (await loadCatalogue('en', ['common', 'estimates'])) as Record<string, string>

/** The part as a page shows it once this has been answered. */
function shown(answer: Pick<Estimates, 'gradation' | 'estimates'>): string {
  const client = new QueryClient()
  client.setQueryData(estimateQueries.of('l1', design, {}).queryKey, { residue: null, ...answer })
  const part = element(LaboratoryProvider, { view: laboratory, children: element(EstimatePart, { design }) })
  const withData = element(QueryClientProvider, { client }, part)
  return renderToStaticMarkup(element(IntlProvider, { locale: 'en', messages }, withData))
}

const sizes = ['9.5', '4.75', '2.36', '1.18', '0.600', '0.300', '0.150', '0.075']
const passing = ['100', '95', '78', '57', '40', '24', '15', '10']
const given = (value: string) => ({ value, source: 'test' })
const computed = (more: object) =>
  estimatesOf({
    sieves: sizes.map((size, index) => ({ size, passing: passing[index]! })),
    gradation: { source: 'test' },
    residue: given('62'),
    ...more,
  }) as unknown as Estimates['estimates']
const gradation = { id: 'g1' } as Estimates['gradation']

describe('the estimate before the first series', () => {
  test('says what is missing where there is no gradation, and the way to enter it', () => {
    const page = shown({ gradation: null, estimates: [] })
    expect(page).toContain(own['estimates.noGradation'])
    expect(page).toContain('href="/l/lab/designs/d1?tab=results"')
    expect(page).not.toContain('<form')
  })

  test('shows each content with its unit, the way to its working, its source and how certain it is', () => {
    const estimates = computed({
      apparentGravity: given('2.96'),
      absorption: given('2.2'),
      binderGravity: given('1.02'),
    })
    const page = shown({ gradation, estimates })
    expect(page.match(/9,58/g)?.length).toBeGreaterThanOrEqual(2)
    expect(page).toContain('15,46')
    expect(page).toContain('% of dry aggregate')
    expect(page).toContain('Working: Residual binder, Surface area, US factors')
    expect(page).toContain('UFC 3-250-03 (2001), appendix C')
    expect(page).toContain(own['estimates.certainty.published'])
    expect(page).toContain(own['estimates.certainty.from-memory'])
    expect(page).toContain('too thick for heavy traffic')
  })

  test('a refused estimate says why in its place, and the others stand', () => {
    const page = shown({ gradation, estimates: computed({}) })
    expect(page).toContain('The apparent specific gravity of the aggregate is not given yet: enter it.')
    expect(page).toContain('Working: Emulsion, Three fractions of the aggregate')
  })
})

test('only what was typed is asked with', () => {
  const form = new Map([
    ['apparentGravity', ' 2,96 '],
    ['absorption', ''],
    ['film', '6'],
  ])
  expect(questionOf({ get: (name) => form.get(name) ?? null })).toEqual({ apparentGravity: '2,96', film: '6' })
})

test('the same question is known again, and one with a field more or another value is another', () => {
  expect(asksTheSame({ film: '6' }, { film: '6' })).toBe(true)
  expect(asksTheSame({ film: '6' }, { film: '7' })).toBe(false)
  expect(asksTheSame({}, { film: '6' })).toBe(false)
})

test('an estimate says which values it is for, also while another one is asked and after one that was refused', () => {
  const said = (props: Parameters<typeof EstimateFor>[0]) =>
    renderToStaticMarkup(element(IntlProvider, { locale: 'en', messages }, element(EstimateFor, props)))
  expect(said({ question: {}, other: 'none' })).toContain(own['estimates.forNothing'])
  const refused = said({ question: { film: '6' }, other: 'refused' })
  expect(refused).toContain('Calculated with: Film of binder, µm: 6.')
  expect(refused).toContain(own['estimates.notAnswered'])
  expect(said({ question: { film: '6' }, other: 'asking' })).toContain(own['estimates.asking'])
})
