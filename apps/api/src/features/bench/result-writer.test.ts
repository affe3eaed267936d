import type { ComputedResult, Evaluation } from '@curebook/trade/procedure/declaration'
import { expect, it } from 'vitest'
import { changesOf, type StoredResult } from './result-writer.ts'
import { withdrawnSentence } from './waiting-results.ts'

const perArea = (unit: string, value: string): ComputedResult => ({
  key: 'loss-per-area',
  label: 'Loss per area',
  value,
  unit,
  displayDecimals: 1,
  calculation: { schema: 1, lines: [] },
})
const given = (...results: ComputedResult[]): Evaluation => ({ results, refusals: [], missing: [] })
const stored = (unit: string, more: Partial<StoredResult> = {}): StoredResult => ({
  ...{ id: unit, testId: 't', key: 'loss-per-area', unit, valueText: '10', choice: null, findings: null },
  ...{ refusalCode: null, refusalText: null },
  ...more,
})
const said = (evaluation: Evaluation, ...before: StoredResult[]) =>
  changesOf(evaluation, before).map(({ outcome, supersedes }) => [
    'unit' in outcome ? outcome.unit : null,
    'value' in outcome ? outcome.value : 'text' in outcome ? outcome.text : outcome.choice,
    supersedes?.id ?? null,
  ])

it('a unit that is not given any more gives way beside one that is', () => {
  const [square, foot] = [stored('g/m²'), stored('g/ft²')]
  expect(said(given(perArea('g/m²', '10')), square, foot)).toEqual([['g/ft²', withdrawnSentence, 'g/ft²']])
  expect(said(given(perArea('g/m²', '11')), square, foot)).toEqual([
    ['g/m²', '11', 'g/m²'],
    ['g/ft²', withdrawnSentence, 'g/ft²'],
  ])
})

it('that is said once, and the unit comes back in its place', () => {
  const gone = { valueText: null, refusalCode: 'reading-withdrawn', refusalText: withdrawnSentence }
  const [square, foot] = [stored('g/m²'), stored('g/ft²', gone)]
  expect(said(given(perArea('g/m²', '10')), square, foot)).toEqual([])
  expect(said(given(perArea('g/m²', '10'), perArea('g/ft²', '1')), square, foot)).toEqual([['g/ft²', '1', 'g/ft²']])
})

it('a refusal speaks for every unit of its key', () => {
  const refusals = [{ key: 'loss-per-area', code: 'gain', text: 'Gain of 1 g.', detail: {} }] as const
  expect(said({ results: [], refusals, missing: [] }, stored('g/m²'), stored('g/ft²'))).toEqual([
    ['g/m²', 'Gain of 1 g.', 'g/m²'],
    ['g/ft²', 'Gain of 1 g.', 'g/ft²'],
  ])
  const waiting = [{ ...refusals[0], code: 'missing-setup' }] as const
  expect(said({ results: [], refusals: waiting, missing: [] }, stored('g/m²'))).toEqual([])
})
