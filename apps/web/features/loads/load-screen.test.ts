import type { Load, Ovens } from '@curebook/contract/loads'
import { QueryClient, QueryClientProvider } from '@tanstack/react-query'
import { createElement as element, type ComponentProps, type ReactElement, type ReactNode } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { IntlProvider } from 'react-intl'
import { beforeEach, expect, test, vi } from 'vitest'
import { loadCatalogue } from '#lib/catalogue.ts'
import { LaboratoryProvider } from '#lib/laboratory-provider.tsx'
import type { OutboxEntry } from '#lib/outbox/outbox-entry.ts'
import { LoadPart } from './load-part.tsx'
import type { LoadWork } from './load-work.tsx'
import { loadQueries } from './loads.queries.ts'
import { OvensScreen } from './ovens-screen.tsx'

let entries: readonly OutboxEntry[]
let buttons: ComponentProps<'button'>[]
const takeOut = vi.fn()
vi.mock('#lib/outbox/outbox-provider.tsx', () => ({
  useOutbox: () => ({ entries, awaited: new Set(), stateOf: () => 'refused', takeOut, sendAgain: vi.fn() }),
}))
vi.mock('#features/bench/bench-frame.tsx', () => ({ BenchFrame: ({ children }: { children: ReactNode }) => children }))
vi.mock('./specimen-table.tsx', () => ({ SpecimenTable: () => null }))
vi.mock('#components/button.tsx', () => ({
  Button: ({ tone: _, size: __, ...props }: ComponentProps<'button'> & { tone?: string; size?: string }) => {
    buttons.push(props)
    return element('button', props)
  },
}))

const messages = (await loadCatalogue('en', ['common', 'shell', 'bench', 'loads'])) as Record<string, string>
const laboratory = {
  id: 'l1',
  shortName: 'lab',
  name: 'Laboratory',
  zone: 'UTC',
  decimalSign: 'point',
  language: 'en',
  actions: ['load:update'],
  me: { membershipId: 'me', name: 'Me', initials: 'M', roles: ['technician'] },
} as unknown as ComponentProps<typeof LaboratoryProvider>['view']

function shown(part: ReactElement, ovens?: Ovens): string {
  const client = new QueryClient()
  if (ovens) client.setQueryData(loadQueries.list('l1').queryKey, ovens)
  const inside = element(LaboratoryProvider, { view: laboratory, children: part })
  const withData = element(QueryClientProvider, { client }, inside)
  return renderToStaticMarkup(element(IntlProvider, { locale: 'en', messages }, withData))
}

beforeEach(() => {
  entries = []
  buttons = []
})

test('without an oven in service what was refused is shown, each button names its entry, and taking out asks first', () => {
  entries = [
    {
      id: 'in',
      lane: 'load/x',
      path: '/api/labs/l1/loads/x/in',
      body: { opens: 'ov', rows: [], time: { eventAt: '2026-03-05T08:00:00.000Z' } },
      label: 'Put into OV-1: 10-1',
      topics: [],
      labId: 'l1',
      membershipId: 'me',
      personName: 'Me',
      queuedAt: '2026-03-05T08:00:00.000Z',
      order: 1,
      attempts: 1,
      state: 'refused',
      problem: { code: 'x', status: 422, message: 'OV-1 is out of service.', errors: [], extra: {} },
    },
  ]
  const none: Ovens = { now: '2026-03-05T08:00:00.000Z', instruments: [], readers: [], waiting: [], unplaced: [] }
  const markup = shown(element(OvensScreen), none)
  expect(markup).toContain('There is no oven or bath yet.')
  expect(markup).toContain('OV-1 is out of service.')
  expect(buttons.map((button) => button['aria-label'])).toEqual([
    'Send again: Put into OV-1: 10-1',
    'Take out of the outbox: Put into OV-1: 10-1',
  ])
  buttons[1]!.onClick!({} as never)
  expect(takeOut).not.toHaveBeenCalled()
})

test('a load hands its work to the screen with itself: emptied by somebody else it goes, and its dialog does not', () => {
  const specimen = { testId: 't1', label: '10-1', code: 'S-1', endsHere: true }
  const load = {
    id: 'x',
    kind: 'oven',
    instrumentId: 'ov',
    openedAt: '2026-03-05T07:00:00.000Z',
    by: { membershipId: 'me', name: 'Me', initials: 'M' },
    specimens: [specimen],
    temperatures: [],
    checks: [],
    constantMass: { reached: false, sentence: 'Still drying.' },
  } as unknown as Load
  const works: LoadWork[] = []
  shown(element(LoadPart, { load, number: 1, code: 'OV-1', onWork: (work) => works.push(work) }))
  for (const { onClick } of buttons) onClick!({} as never)
  const name = 'Load 1 in OV-1'
  expect(works).toMatchObject([
    { what: 'out', load, name, specimens: [specimen] },
    { what: 'temperature', load, name },
    { what: 'warm-mass', load, name },
  ])
})
