import type { PanelTest, PanelTests } from '@curebook/contract/panel-tests'
import type { PanelRow } from '@curebook/contract/range'
import { expect, test } from 'vitest'
import { ofCurve, panelLines, stateOf, whyUndecided } from './panel-state.ts'

const row = (key: string, more: Partial<PanelRow> = {}): PanelRow => ({
  ...{ key, label: key, soak: null, limit: 'at least 12 kg·cm', limitSource: 'ISSA A143', certainty: 'from memory' },
  ...{ value: null, unit: null, at: null, n: null, verdict: 'not tested', margin: null, sentence: '' },
  ...{ classes: null, calculation: null, entered: null, beside: null },
  ...more,
})
const made = (methodKey: string, state: PanelTest['state']): PanelTest => ({
  ...{ testId: `${methodKey} ${state}`, code: 'AB12', label: '12-1', form: 'ring', methodKey, methodName: methodKey },
  ...{ emulsionPercent: '12', state, stepTitle: null, results: [] },
})
const cohesion = { key: 'cohesion', name: 'Cohesion', place: 'panel' } as const
const abrasion = { key: 'abrasion', name: 'Abrasion', place: 'series' } as const
const found = {
  ...{ methodKey: 'cohesion', emulsionPercent: '12', n: 2, value: '28.05', unit: 'min', classes: null },
}
const view = (...tests: PanelTest[]): PanelTests => ({
  tests,
  charts: [],
  series: [],
  counts: [],
  properties: [
    { limitKey: 'cohesion-30-min', methods: [cohesion] },
    { limitKey: 'abrasion-loss', methods: [abrasion] },
    { limitKey: 'stripping', methods: [] },
  ],
  panels: [
    {
      ...{ key: 'set', name: 'A set', source: 'AASHTO PP 83' },
      tests: [
        {
          ...{ designation: 'ISSA TB-139', title: 'Cohesion' },
          properties: [
            { label: 'Cohesion at 30 min', limitKey: 'cohesion-30-min', found: [], methods: [cohesion] },
            { label: 'Set time', limitKey: null, found: [found], methods: [cohesion] },
          ],
        },
      ],
    },
  ],
})
const rows = [row('cohesion-30-min'), row('abrasion-loss'), row('stripping')]
const states = (shown: readonly PanelRow[], ...tests: PanelTest[]) =>
  panelLines(shown, view(...tests), undefined).map(stateOf)

test('a line without a limit has what its tests found', () => {
  const of = panelLines(rows, view(made('cohesion', 'done')), view().panels[0])
  expect(of.map(({ label, row: held, found: without }) => [label, held === null, without])).toEqual([
    ['Cohesion at 30 min', false, []],
    ['Set time', true, [found]],
  ])
})

test('a line is missing until something is planned, then planned, running and done', () => {
  expect(states(rows)).toEqual(['missing', 'missing', 'missing'])
  expect(states(rows, made('cohesion', 'waiting'))[0]).toBe('planned')
  expect(states(rows, made('cohesion', 'waiting'), made('cohesion', 'done'))[0]).toBe('running')
  expect(states(rows, made('cohesion', 'done'))[0]).toBe('done')
})

test('a void test answers nothing', () => {
  expect(states(rows, made('cohesion', 'void'))[0]).toBe('missing')
})

test('the specimens of a series count like tests: planned, running, and done when all are', () => {
  const far = (count: number, begun: number, done: number) =>
    panelLines(rows, { ...view(), series: [{ methodKey: 'abrasion', count, begun, done }] }, undefined).map(stateOf)[1]
  expect([far(15, 0, 0), far(15, 4, 0), far(15, 15, 3), far(15, 15, 15)]).toEqual([
    'planned',
    'running',
    'running',
    'done',
  ])
})

test('what was entered, or what the design itself holds, is no missing test', () => {
  const entered = { id: 'e' } as unknown as PanelRow['entered']
  expect(states([row('stripping', { entered, verdict: 'pass' })])).toEqual(['entered'])
  expect(states([row('stripping', { value: '62.6', verdict: 'pass' })])).toEqual(['entered'])
})

test('a ready-made set asks for its own properties, with a limit or without', () => {
  const [at30, set] = panelLines(rows, view(made('cohesion', 'done')), view().panels[0])
  expect([at30?.row?.key, at30?.designation, at30 && stateOf(at30)]).toEqual(['cohesion-30-min', 'ISSA TB-139', 'done'])
  expect([set?.row, set?.label, set && stateOf(set)]).toEqual([null, 'Set time', 'done'])
})

test('a line says where fewer tests count than are asked for, and nothing while the others can still count', () => {
  const count = { methodKey: 'cohesion', methodName: 'Cohesion', emulsionPercent: '12', voided: 1, asked: 3 }
  const few = (counted: number, open: number) =>
    panelLines(rows, { ...view(), counts: [{ ...count, counted, open }] }, undefined).map((line) => line.few.length)
  expect(few(2, 0)).toEqual([1, 0, 0])
  expect(few(1, 1)).toEqual([1, 0, 0])
  expect(few(2, 1)).toEqual([0, 0, 0])
  const contents = ['10', '12', '14'].map((emulsionPercent, index) => ({
    ...{ ...count, emulsionPercent, open: 0, counted: index === 1 ? 1 : 2 },
  }))
  const [line] = panelLines(rows, { ...view(), counts: contents }, undefined)
  expect(line?.few.map((one) => [one.counted, one.contents])).toEqual([
    [2, ['10', '14']],
    [1, ['12']],
  ])
})

test('an undecided line says why in the words of its verdict, and whether it is read off a curve', () => {
  const lineOf = (key: string, more: Partial<PanelRow>) =>
    panelLines([row(key, { verdict: 'undecided', ...more })], view(), undefined)[0]!
  const waiting = { sentence: 'abrasion-loss: tested; judged once a content is recommended.' }
  expect(whyUndecided(lineOf('abrasion-loss', waiting))).toBe('Tested; judged once a content is recommended.')
  expect(whyUndecided(lineOf('stripping', { sentence: 'As it comes.' }))).toBe('As it comes.')
  expect(whyUndecided(lineOf('stripping', { verdict: 'pass' }))).toBeUndefined()
  expect(['abrasion-loss', 'cohesion-30-min', 'stripping'].map((key) => ofCurve(lineOf(key, {})))).toEqual([
    true,
    false,
    false,
  ])
})
