import type { PanelTest, PanelTests, ReadyPanel } from '@curebook/contract/panel-tests'
import type { PanelRow } from '@curebook/contract/range'

type Found = ReadyPanel['tests'][number]['properties'][number]['found']
type Methods = PanelTests['properties'][number]['methods']

/** The same counts at several contents; none for what depends on no content. */
export type FewCount = Omit<PanelTests['counts'][number], 'emulsionPercent'> & { readonly contents: readonly string[] }

/** One line of the panel: what is asked for, what answers it, and how far that is. */
export type PanelLine = {
  readonly key: string
  readonly label: string
  /** Limit and verdict; null where the specification holds no such limit. */
  readonly row: PanelRow | null
  /** What its tests found where no limit is held. */
  readonly found: Found
  readonly methods: Methods
  /** As the panel's source names the test; empty for the specification's own panel. */
  readonly designation: string
  readonly tests: readonly PanelTest[]
  /** Tests of the panel and specimens of the series together. */
  readonly count: number
  readonly begun: number
  readonly done: number
  /** Where fewer tests count, or can count yet, than their editions ask for: contents with the same counts together. */
  readonly few: readonly FewCount[]
}

export type LineState = 'entered' | 'done' | 'running' | 'planned' | 'missing'

/** The lines of the specification's panel, or of a ready-made one. */
export function panelLines(rows: readonly PanelRow[], view: PanelTests, panel: ReadyPanel | undefined): PanelLine[] {
  const testsOf = (methods: Methods) =>
    view.tests.filter(
      ({ methodKey, state }) =>
        methods.some(({ key }) => key === methodKey) && state !== 'void' && state !== 'replaced',
    )
  const lineOf = (key: string, label: string, methods: Methods, more: Partial<PanelLine>): PanelLine => {
    const tests = testsOf(methods)
    const series = view.series.filter(({ methodKey }) => methods.some((method) => method.key === methodKey))
    const sum = (of: 'count' | 'begun' | 'done') => series.reduce((total, one) => total + one[of], 0)
    return {
      ...{ key, label, row: null, found: [], methods, designation: '', tests },
      few: fewOf(view.counts.filter(({ methodKey }) => methods.some((method) => method.key === methodKey))),
      count: tests.length + sum('count'),
      begun: tests.filter(({ state }) => state !== 'waiting').length + sum('begun'),
      done: tests.filter(({ state }) => state === 'done').length + sum('done'),
      ...more,
    }
  }
  if (panel === undefined)
    return rows.map((row) => {
      const methods = view.properties.find(({ limitKey }) => limitKey === row.key)?.methods ?? []
      return lineOf(row.key, row.label, methods, { row })
    })
  return panel.tests.flatMap(({ designation, properties }) =>
    properties.map(({ label, limitKey, found, methods }) => {
      const row = rows.find(({ key }) => key === limitKey) ?? null
      return lineOf(`${designation} ${label}`, label, methods, { row, found, designation })
    }),
  )
}

function fewOf(counts: PanelTests['counts']): readonly FewCount[] {
  const alike = new Map<string, FewCount>()
  for (const { emulsionPercent, ...count } of counts) {
    if (count.counted + count.open >= count.asked) continue
    const key = JSON.stringify([count, emulsionPercent === null])
    const { contents } = alike.get(key) ?? { contents: [] }
    alike.set(key, { ...count, contents: emulsionPercent === null ? contents : [...contents, emulsionPercent] })
  }
  return [...alike.values()]
}

/** How far a line is: its tests, where there are any; else a value that was entered, or that the design itself holds. */
export function stateOf({ row, count, begun, done }: Pick<PanelLine, 'row' | 'count' | 'begun' | 'done'>): LineState {
  if (count > 0 && done === count) return 'done'
  if (row?.entered) return 'entered'
  if (count === 0) return row !== null && row.value !== null ? 'entered' : 'missing'
  return begun > 0 ? 'running' : 'planned'
}

/** Why an undecided line is so, in the words of its verdict, without the name in front. */
export function whyUndecided({ row }: Pick<PanelLine, 'row'>): string | undefined {
  if (row?.verdict !== 'undecided') return undefined
  const prefix = `${row.label}: `
  const told = row.sentence.startsWith(prefix) ? row.sentence.slice(prefix.length) : row.sentence
  return told.charAt(0).toUpperCase() + told.slice(1)
}

/** Whether its value is read off a curve over the contents of the series. */
export function ofCurve({ methods }: Pick<PanelLine, 'methods'>): boolean {
  return methods.some(({ place }) => place === 'series')
}
