import { builtInMethods } from '@curebook/trade/methods/catalogue'
import design from '../../packages/trade/src/reference-cases/marrowdale-design.json' with { type: 'json' }
import type { Batch } from './journey-bench.ts'

/** The design of the reference case as weighed, with the days and times of its story. */
export { design }

export type Row = (typeof design.rows)[number]
/** One specimen as weighed; without `w1` or `w2` it was lost or not needed before. */
export type WeighedRow = Pick<Row, 'form' | 'label' | 'aggregate' | 'emulsion'> & {
  readonly w1?: string
  readonly w2?: string
}
export const oneHour = 'Wet track abrasion, 1-hour soak'
export const sixDay = 'Wet track abrasion, 6-day soak'
export const adhesion = 'Loaded wheel sand adhesion'
/** The tests as rows of the bench name them, where there is little room. */
export const shortNames: Readonly<Record<string, string>> = {
  [oneHour]: 'Abrasion, 1 h',
  [sixDay]: 'Abrasion, 6 d',
  [adhesion]: 'Sand adhesion',
}

const days = { 1: '02', 2: '03', 3: '04', 4: '05', 5: '06', 8: '09', 9: '10', 10: '11', 11: '12', 12: '13', 15: '16' }
export type Day = keyof typeof days

/** A time of a day of the story (day 1 is a Monday) in the laboratory, which keeps Greenwich time in March. */
export const at = (day: Day, time: string) => `2026-03-${days[day]}T${time}:00Z`

/** "10:20" and 75 minutes are "11:35". */
export function plus(time: string, minutes: number): string {
  const [hours = 0, start = 0] = time.split(':').map(Number)
  const all = hours * 60 + start + minutes
  return `${String(Math.floor(all / 60)).padStart(2, '0')}:${String(all % 60).padStart(2, '0')}`
}

export const labels = [10, 11, 12, 13, 14].flatMap((content) => [1, 2, 3].map((replicate) => `${content}-${replicate}`))
/** The order in which the 1-hour discs went into the bath. */
export const soakOrder = [
  ...['10-1', '12-1', '14-1', '11-1', '13-1', '13-2', '11-2', '14-2'],
  ...['12-2', '10-2', '12-3', '10-3', '13-3', '14-3', '11-3'],
]

const testOf = (row: Row) => (row.form === 'strip' ? adhesion : row.soak === '1-hour' ? oneHour : sixDay)
export const rowsOf = (test: string) => design.rows.filter((row) => testOf(row) === test)

/** Aggregate and emulsion as weighed; the rest on its target. */
export function batchOf(row: WeighedRow): Batch {
  const content = design.contents.find(({ emulsionPercent }) => row.label.startsWith(`${emulsionPercent}-`))!
  const of = (percent: string) => (Number(percent) * Number(design.dryAggregateG[row.form as 'disc' | 'strip'])) / 100
  return {
    aggregate: row.aggregate,
    filler: of(content.fillerPercent).toFixed(1),
    additive: of(content.additivePercent).toFixed(1),
    water: of(content.waterPercent).toFixed(1),
    emulsion: row.emulsion,
  }
}

/** How many readings the methods ask of these specimens: what their batches ask, and one for each weighing. */
export function readingsAskedFor(rows: readonly WeighedRow[]): number {
  return rows.reduce((sum, { w1, w2 }) => sum + requiredBy('batch') + [w1, w2].filter(Boolean).length, 0)
}

function requiredBy(key: string): number {
  const { steps } = builtInMethods.find((method) => method.key === key)!
  const readings = steps.flatMap((step) => step.readings)
  return readings.reduce((sum, { optional, repeats = 1 }) => sum + (optional === true ? 0 : repeats), 0)
}

export const samples = [
  {
    field: 'Aggregate',
    kind: 'Aggregate',
    name: 'Type II aggregate, crushed',
    source: 'Skerry Edge Quarry',
    note: 'Three bags, 74.2 kg, sound',
  },
  {
    field: 'Emulsion',
    kind: 'Emulsion',
    name: 'Quick-set polymer-modified emulsion',
    source: 'Ansel Binders',
    supplier: 'Ansel Binders',
    lot: '4417',
  },
  { field: 'Mineral filler', kind: 'Mineral filler', name: 'Cement', source: 'Builder’s merchant' },
  {
    field: 'Set-control additive',
    kind: 'Set-control additive',
    name: 'Additive, half a litre',
    source: 'Ansel Binders',
  },
  { field: 'Water', kind: 'Job water', name: 'Water of the site', source: 'Marrowdale depot' },
]

const since = '2026-01-05'
export const instruments = [
  { kind: 'Balance', code: 'BAL-1', name: '6 kg balance for discs and batches', capacity: '6000', step: '0.1' },
  { kind: 'Balance', code: 'BAL-2', name: '1.2 kg balance for strips', capacity: '1200', step: '0.01' },
  { kind: 'Oven', code: 'OV-1', name: '60 °C oven for 18 discs' },
  { kind: 'Water bath', code: 'BATH-1', name: '25 °C bath with 16 places' },
]
export const machines = [
  {
    kind: 'Wet track machine',
    code: 'WTA-1',
    name: 'Wet track machine, reference class',
    factors: design.factors.area,
    area: '303.8',
    edition: 'ISSA TB-100, from memory, unverified',
    since,
  },
  {
    kind: 'Loaded wheel',
    code: 'LW-1',
    name: 'Loaded wheel, one track',
    factors: design.factors.frame,
    area: '135.48',
    edition: 'ISSA TB-109, from memory, unverified',
    since,
  },
]
