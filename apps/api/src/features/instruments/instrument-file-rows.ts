import type { ImportColumn } from '@curebook/contract/instrument-import-columns'
import { type ImportFault, type ImportRow, ImportRowSchema } from '@curebook/contract/instrument-imports'
import { type Instrument, InstrumentKindSchema } from '@curebook/contract/instruments'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'
import { AppError } from '#platform/problem'
import type { FileLine } from './instrument-file.ts'
import { checkArea, checkKey, checkShown, factorKeyOf, readFactor } from './instrument-rules.ts'

type Judged = { readonly rows: readonly ImportRow[]; readonly faults: readonly ImportFault[] }
type Cells = FileLine['cells']

/**
 * Each line as the form would take it, by the same rules; a line with a fault is none of the rows.
 * @param taken codes of the laboratory's instruments
 */
export function judgeLines(
  lines: readonly FileLine[],
  { taken, today }: { readonly taken: ReadonlySet<string>; readonly today: string },
): Judged {
  const faults: ImportFault[] = []
  const seen = new Map<string, number>()
  const rows = lines.flatMap(({ line, cells }): ImportRow[] => {
    const before = faults.length
    const tell = (column: ImportColumn, message: string) => void faults.push({ line, column, message })
    const { code } = cells
    if (code !== '' && taken.has(code))
      tell('code', `The code ${code} is taken: give the one on this instrument’s label.`)
    const first = seen.get(code)
    if (code !== '' && first !== undefined) tell('code', `The code ${code} stands already on line ${first}.`)
    seen.set(code, first ?? line)
    const instrument = readInstrument(cells, tell)
    const calibration = readCalibration(cells, today, tell)
    const factor = instrument && readFactorOf(cells, instrument, today, tell)
    if (faults.length > before || instrument === null) return []
    const row = ImportRowSchema.safeParse({ line, instrument, calibration, factor })
    if (row.success) return [row.data]
    // What the form would refuse beyond the rules above: nothing comes in that it would not take.
    for (const { path, message } of row.error.issues) faults.push({ line, column: String(path.at(-1) ?? ''), message })
    return []
  })
  return { rows, faults }
}

type Tell = (column: ImportColumn, message: string) => void

function readInstrument(cells: Cells, tell: Tell): ImportRow['instrument'] | null {
  const kind = InstrumentKindSchema.options.find((one) => one === kindKeyOf(cells.kind))
  if (kind === undefined)
    tell(
      'kind',
      `“${cells.kind}” is no kind of instrument. Kinds are: ${InstrumentKindSchema.options.map(wordsOfKind).join(', ')}.`,
    )
  const within = (column: 'code' | 'name' | 'serial' | 'place', most: number, empty?: string) => {
    if (empty && cells[column] === '') tell(column, empty)
    if (cells[column].length > most) tell(column, `It has at most ${most} characters.`)
  }
  within('code', 20, 'Give the code on its label.')
  within('name', 200, 'Describe it by size and use.')
  within('serial', 100)
  within('place', 100)
  if (kind !== 'balance')
    for (const column of ['capacity', 'smallest step'] as const)
      if (kind !== undefined && cells[column] !== '') tell(column, 'Only a balance has one: leave it empty.')
  const capacity = gramsOf(cells, 'capacity', 'The capacity', tell)
  const resolution = gramsOf(cells, 'smallest step', 'The smallest step', tell)
  told(() => checkShown({ capacity, resolution }), { capacity: 'capacity', resolution: 'smallest step' }, tell)
  if (kind === undefined) return null
  const { code, name, serial, place } = cells
  const capacityUnit = capacity === null && resolution === null ? null : 'g'
  return { code, kind, name, serial, place, capacity, capacityUnit, resolution }
}

function readCalibration(cells: Cells, today: string, tell: Tell): ImportRow['calibration'] {
  const columns = ['calibrated on', 'due', 'certificate'] as const
  if ([...columns, 'passed' as const].every((column) => cells[column] === '')) return null
  for (const column of columns)
    if (cells[column] === '')
      tell(column, 'A calibration has its day, its end and its certificate: this one is missing.')
  const [doneOn, validUntil] = [dayOf(cells, 'calibrated on', tell), dayOf(cells, 'due', tell)]
  if (doneOn !== null && doneOn > today)
    tell('calibrated on', 'A calibration is entered when it is done: give today or an earlier day.')
  if (doneOn !== null && validUntil !== null && validUntil < doneOn)
    tell('due', 'A calibration cannot end before it was done: give a later day.')
  const no = cells.passed.toLowerCase() === 'no'
  if (!no && !['', 'yes'].includes(cells.passed.toLowerCase()))
    tell('passed', 'Whether it passed is yes or no; left empty it is yes.')
  if (cells.certificate.length > 200) tell('certificate', 'It has at most 200 characters.')
  return { doneOn: doneOn ?? '', validUntil: validUntil ?? '', certificate: cells.certificate, passed: !no }
}

function readFactorOf(
  cells: Cells,
  instrument: Pick<Instrument, 'code' | 'kind'>,
  today: string,
  tell: Tell,
): ImportRow['factor'] {
  const columns = ['factor', 'factor unit', 'edition', 'factor from'] as const
  if ([...columns, 'measured area' as const].every((column) => cells[column] === '')) return null
  const key = factorKeyOf[instrument.kind] ?? 'area'
  told(() => checkKey(instrument, { key }), { key: 'factor' }, tell)
  for (const column of columns)
    if (cells[column] === '')
      tell(column, 'A factor has its figure, its unit, its edition and its first day: this one is missing.')
  const unit = (['g/m²', 'g/ft²'] as const).find((one) => one === cells['factor unit'].replace('2', '²'))
  if (unit === undefined && cells['factor unit'] !== '') tell('factor unit', 'The unit is g/m² or g/ft².')
  if (unit !== undefined && cells.factor !== '')
    told(() => void readFactor({ typed: cells.factor, unit }), { typed: 'factor' }, tell)
  const area =
    cells['measured area'] === ''
      ? null
      : readTypedNumber(cells['measured area'], { unit: 'cm²', label: 'The measured area' })
  if (area?.ok === false) tell('measured area', area.message)
  const measuredAreaCm2 = area?.ok ? area.value : null
  told(() => checkArea({ measuredAreaCm2 }), { measuredAreaCm2: 'measured area' }, tell)
  const effectiveFrom = dayOf(cells, 'factor from', tell)
  if (effectiveFrom !== null && effectiveFrom > today)
    tell('factor from', `A factor is entered when it holds: give ${today} or an earlier day.`)
  const { factor: typed, edition } = cells
  return { key, typed, unit: unit ?? 'g/m²', measuredAreaCm2, edition, effectiveFrom: effectiveFrom ?? '' }
}

/** What a rule of the form refuses, told beside its column. */
function told(rule: () => void, columnOf: Readonly<Record<string, ImportColumn>>, tell: Tell): void {
  try {
    rule()
  } catch (error) {
    if (!(error instanceof AppError)) throw error
    for (const { path, message } of error.errors ?? []) tell(columnOf[path] ?? 'code', message)
  }
}

function gramsOf(cells: Cells, column: 'capacity' | 'smallest step', label: string, tell: Tell): string | null {
  if (cells[column] === '') return null
  const read = readTypedNumber(cells[column], { unit: 'g', label })
  if (read.ok) return read.value
  tell(column, read.message)
  return null
}

/** A day that cannot be read in two ways: 03/05/26 is refused. */
function dayOf(cells: Cells, column: ImportColumn, tell: Tell): string | null {
  const typed = cells[column]
  if (typed === '') return null
  const at = /^\d{4}-\d{2}-\d{2}$/.test(typed) ? new Date(`${typed}T00:00:00Z`) : null
  if (at !== null && !Number.isNaN(at.getTime()) && at.toISOString().startsWith(typed)) return typed
  tell(column, `“${typed}” is no day as it is written here: year, month, day, like 2026-03-05.`)
  return null
}

function kindKeyOf(typed: string): string {
  const key = typed.toLowerCase().replace(/[\s_]+/g, '-')
  return key === 'water-bath' ? 'bath' : key
}

function wordsOfKind(kind: Instrument['kind']): string {
  return kind.replaceAll('-', ' ')
}
