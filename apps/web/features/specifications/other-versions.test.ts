import type { EditSpecification, SpecificationHistory } from '@curebook/contract/own-specifications'
import type { Specification } from '@curebook/contract/specifications'
import { QueryClient, QueryClientProvider } from '@tanstack/react-query'
import { AppRouterContext } from 'next/dist/shared/lib/app-router-context.shared-runtime.js'
import { SearchParamsContext } from 'next/dist/shared/lib/hooks-client-context.shared-runtime.js'
import { createElement as element, type ComponentProps } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { IntlProvider } from 'react-intl'
import { describe, expect, test } from 'vitest'
import { ApiProblem } from '#lib/api-problem.ts'
import { loadCatalogue } from '#lib/catalogue.ts'
import { LaboratoryProvider } from '#lib/laboratory-provider.tsx'
import own from '../../messages/en/specifications.json' with { type: 'json' }
import { OtherVersionPart } from './other-version-part.tsx'
import { changesSent, isConflict, otherVersions } from './other-versions.ts'
import { OpenedVersion, WriteScreen } from './write-screens.tsx'
import { emptyLimit } from './written-form.ts'

const laboratory = {
  id: 'l1',
  shortName: 'lab',
  name: 'Laboratory',
  zone: 'UTC',
  decimalSign: 'point',
  language: 'en',
  actions: ['specification:write'],
  me: { membershipId: 'm1', roles: ['engineer'] },
} as unknown as ComponentProps<typeof LaboratoryProvider>['view']
const messages = (await loadCatalogue('en', ['common', 'specifications'])) as Record<string, string>

function shown(part: ReturnType<typeof element>, { client = new QueryClient(), address = '' } = {}): string {
  const inLaboratory = element(LaboratoryProvider, { view: laboratory, children: part })
  const withData = element(QueryClientProvider, { client }, inLaboratory)
  const withAddress = element(SearchParamsContext.Provider, { value: new URLSearchParams(address) }, withData)
  const withRouter = element(AppRouterContext.Provider, { value: {} as never }, withAddress)
  return renderToStaticMarkup(element(IntlProvider, { locale: 'en', messages }, withRouter))
}

const limit = {
  ...emptyLimit,
  key: 'mix-time',
  property: 'mix-time',
  label: 'Mix time',
  sense: 'min' as const,
  value: '120',
  unit: 's',
  source: 'County standard, 2026',
}
const opened = {
  id: 's2',
  version: 2,
  standing: 'current',
  name: 'County limits',
  source: 'County standard, 2026',
  aggregateType: 'Type II',
  traffic: 'heavy',
  residualBand: { from: '6.0', to: null, unit: '% of dry aggregate', source: 'County', certainty: 'by contract' },
  gradationBand: null,
  information: [],
  limits: [limit],
} as unknown as Specification
const version = (number: number, more: object = {}) => ({
  id: `s${number}`,
  version: number,
  name: 'County limits',
  by: { id: 'p2', name: 'Another Engineer' },
  at: '2026-03-01T10:00:00.000Z',
  reason: null,
  changes: [],
  designs: 0,
  ...more,
})
const third = version(3, {
  reason: 'The county sent a correction.',
  changes: [{ what: 'Mix time', before: 'at least 120 s', after: 'at least 180 s' }],
})
const history = (more: object = {}) =>
  ({
    specification: { ...opened, standing: 'superseded', name: 'As it is now' },
    versions: [third, version(2), version(1)],
    withdrawn: null,
    ...more,
  }) as unknown as SpecificationHistory
const sent: EditSpecification = {
  id: 'mine',
  name: 'County limits',
  source: 'County standard, 2026',
  aggregateType: 'Type II',
  traffic: 'heavy',
  residualBand: { from: '6.0', to: null, source: 'County', certainty: 'by contract' },
  gradationBand: null,
  limits: [{ ...limit, traffic: null, group: 'mix', uncertainty: null, value: '150' }],
  reason: 'Contract 12.',
}

describe('a version opened in the form', () => {
  test('stays there as it was opened when somebody else stores one, with that one above it', () => {
    const page = shown(element(OpenedVersion, { history: history(), opened }))
    expect(page).toContain('<form')
    expect(page).toContain('value="County limits"')
    expect(page).not.toContain('As it is now')
    for (const text of [
      'The county sent a correction.',
      'Another Engineer',
      'at least 180 s',
      own['specifications.otherVersion'],
    ])
      expect(page).toContain(text)
    expect(page).toContain('Let mine follow version 3')
  })

  test('stays there when the specification is withdrawn, with who and why, and no way to store after it', () => {
    const withdrawn = { by: { id: 'p2', name: 'Another Engineer' }, at: '2026-03-01T10:00:00.000Z', reason: 'Void.' }
    const page = shown(element(OpenedVersion, { history: history({ withdrawn }), opened }))
    expect(page).toContain('<form')
    expect(page).toContain('Void.')
    expect(page).not.toContain('Let mine follow')
  })

  test('is not opened where it was followed before', () => {
    const page = shown(element(OpenedVersion, { history: history() }))
    expect(page).not.toContain('<form')
    expect(page).toContain(own['specifications.notNewest'])
  })

  test('after a conflict both are listed: what the other changed and what was sent', () => {
    const part = { opened, others: [third] as never, withdrawn: null, refused: sent, onAfter: () => undefined }
    const page = shown(element(OtherVersionPart, { ...part, after: 's2' }))
    expect(page).toContain('at least 180 s')
    expect(page).toContain(own['specifications.typedHere'])
    expect(page).toContain('at least 150 s')
    expect(shown(element(OtherVersionPart, { ...part, after: 's3' }))).toContain('will be stored after version 3')
  })
})

describe('what stands on top of the opened version', () => {
  const idsOf = (status: 'idle' | 'pending' | 'success' | 'error', id: string) =>
    otherVersions(opened, history(), { status, variables: { id } }).map((one) => one.id)
  test('is not what the form itself stores, unless its answer was lost', () => {
    expect(idsOf('pending', 's3')).toEqual([])
    expect(idsOf('success', 's3')).toEqual([])
    expect(idsOf('error', 's3')).toEqual(['s3'])
    expect(idsOf('pending', 'mine')).toEqual(['s3'])
  })
  test('what was sent is told against the opened version alone', () => {
    expect(changesSent(opened, sent).map(({ what }) => what)).toEqual(['Mix time'])
    expect(isConflict(new ApiProblem('conflict', 409, 'Conflict', ''))).toBe(true)
    expect(isConflict(new ApiProblem('network', 0, 'No answer', ''))).toBe(false)
  })
})

describe('a specification written anew', () => {
  const written = (more: object = {}) => ({ ...opened, key: 'own', project: null, ...more })
  const page = (address: string, ...items: readonly object[]) => {
    const client = new QueryClient()
    client.setQueryData(['l1', 'specifications'], { items, next: null })
    return shown(element(WriteScreen), { client, address })
  }

  test('begins as the one of the laboratory that is named, under a name of its own and without a reason', () => {
    const form = page('copy=s2', written())
    for (const text of ['value="120"', 'value="mix-time"', 'County limits, version 2']) expect(form).toContain(text)
    expect(form).not.toContain('value="County limits"')
    expect(form).not.toContain(own['specifications.versionReason'])
  })

  test('begins empty else, and copies of built-in values are not offered', () => {
    const adopted = page('copy=s2', written({ key: 'issa-a143-2010' }))
    expect(adopted).not.toContain('value="120"')
    expect(adopted).not.toContain(own['specifications.beginWith'])
    const offered = page('', written(), written({ id: 's9', name: 'Left behind', standing: 'superseded' }))
    expect(offered).toContain(own['specifications.beginEmpty'])
    expect(offered).not.toContain('value="120"')
    expect(offered).not.toContain('Left behind')
  })
})
