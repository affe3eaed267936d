import type { SignedContent, SignedSpecimen } from '@curebook/contract/signed-content'
import { writtenUnit } from '@curebook/trade/quantity/unit-table'
import { groupedBy } from '../grouped-by.ts'
import { colours, styles } from '../paper.ts'
import { withoutUnit } from '../report-format.ts'
import type { Sheet } from '../sheet.ts'
import type { Cell } from '../table-columns.ts'
import { drawSpecimenTable, type SpecimenColumn } from './specimen-table.ts'

/** Every specimen of every method: batch as weighed, readings as typed, results, remarks; then times, people, instruments. */
export function drawSpecimens(sheet: Sheet, content: SignedContent): void {
  if (content.specimens.length === 0) return
  sheet.heading(sheet.words.specimens, { keep: 140 })
  sheet.paragraph(sheet.words.specimensNote, styles.quiet)
  for (const [method, specimens] of groupedBy(content.specimens, (specimen) => specimen.method)) {
    drawReadings(sheet, method, specimens)
    drawTimes(sheet, method, specimens, content.equipment ?? [])
    drawEventNotes(sheet, specimens)
  }
}

type Readings = SignedSpecimen['readings']
const isVoid = ({ state }: SignedSpecimen) => state === 'void' || state === 'replaced'
/** What belongs to a void specimen stays to be read, but quiet. */
const paint = (specimen: SignedSpecimen, text: string) =>
  isVoid(specimen) ? { text, colour: colours.quiet } : { text }

function drawReadings(sheet: Sheet, method: string, specimens: readonly SignedSpecimen[]): void {
  const { words, format } = sheet
  const number = (head: string, shown: (one: SignedSpecimen) => string): SpecimenColumn => ({
    head,
    fit: true,
    align: 'right',
    cell: (one) => paint(one, shown(one) || words.dash),
  })
  const batch = readingColumns(sheet, specimens, (one) => one.batch)
  const readings = readingColumns(sheet, specimens, (one) => one.readings)
  const remarkOf = (one: SignedSpecimen) => {
    const refusals = new Set(one.results.filter(({ shown }) => shown === '').map(({ refusal }) => refusal))
    return [
      one.state === 'done' || one.remark.startsWith(one.state) ? '' : one.state,
      one.remark,
      ...[...refusals].map(words.refused),
      ...batch.notesOf(one),
      ...readings.notesOf(one),
    ]
      .filter((part) => part !== '')
      .join('; ')
  }
  const isRemarked = specimens.some((one) => remarkOf(one) !== '')
  drawSpecimenTable(sheet, specimens, {
    name: method,
    groups: [
      [
        number(words.targetShort, (one) => format.digits(one.emulsionTarget)),
        ...batch.columns,
        number(words.emulsionAsWeighed, (one) => format.fixed(one.emulsionAsWeighed, 2)),
        number(words.residualAsWeighed, (one) => format.fixed(one.residualAsWeighed, 3)),
      ],
      [...readings.columns, ...resultColumns(sheet, specimens)],
    ],
    // Where there is nothing to remark, the other columns have the room.
    last: isRemarked ? [{ head: words.remark, share: 1, cell: (one) => remarkCell(one, remarkOf(one)) }] : [],
    lastWidth: isRemarked ? 66 : 0,
  })
}

function remarkCell(specimen: SignedSpecimen, text: string): Cell {
  return isVoid(specimen) ? { text, strong: true, colour: colours.lost } : text
}

/** Longer words than a column should hold: they stand in the remark instead. */
const longWords = 30

/** A column for each kind of reading; what was written at length is given as notes. */
function readingColumns(
  sheet: Sheet,
  specimens: readonly SignedSpecimen[],
  of: (specimen: SignedSpecimen) => Readings,
): { columns: SpecimenColumn[]; notesOf: (specimen: SignedSpecimen) => string[] } {
  const kindOf = ({ step, label }: Readings[number]) => `${step}\n${label}`
  const kinds = [...groupedBy(specimens.flatMap(of), kindOf)]
  const first = kinds.map(([, [reading]]) => reading!)
  const isLong = (readings: Readings) => readings.some(({ typed }) => typed.length > longWords)
  const long = new Set(kinds.filter(([, readings]) => isLong(readings)).map(([kind]) => kind))
  const columnOf = ([kind, readings]: (typeof kinds)[number]): SpecimenColumn => {
    const { step, label, unit } = readings[0]!
    const alike = first.filter((other) => other.label === label).length > 1
    const sameStep = first.filter((other) => other.step === step).length > 1
    const name = !alike ? label : sameStep ? `${step}: ${label}` : step
    const numeric = readings.every(({ typed }) => /^[+\-−]?\d/.test(typed))
    return {
      head: writtenUnit(unit) === '' ? name : `${name} (${writtenUnit(unit)})`,
      fit: true,
      most: 60,
      ...(numeric ? { align: 'right' as const } : {}),
      cell: (one) => {
        const shown = of(one)
          .filter((reading) => kindOf(reading) === kind)
          .map(({ typed, corrected }) => (corrected === '' ? typed : `${typed}\u00a0†`))
        return paint(one, shown.join('\n') || sheet.words.dash)
      },
    }
  }
  return {
    columns: kinds.filter(([kind]) => !long.has(kind)).map(columnOf),
    notesOf: (one) =>
      of(one)
        .filter((reading) => long.has(kindOf(reading)) && reading.typed !== '')
        .map(({ step, label, typed, corrected }) => {
          const name = first.filter((other) => other.label === label).length > 1 ? `${step}, ${label}` : label
          return `${name}: ${typed}${corrected === '' ? '' : '\u00a0†'}`
        }),
  }
}

function resultColumns({ words, format }: Sheet, specimens: readonly SignedSpecimen[]): SpecimenColumn[] {
  const results = specimens.flatMap((specimen) => specimen.results)
  const withUnit = results.filter(({ unit }) => unit !== '')
  // A refusal has no unit: it stands where the same result stands for others.
  const refusals = results.filter(({ key, unit }) => unit === '' && withUnit.every((other) => other.key !== key))
  const kinds = [...groupedBy([...withUnit, ...refusals], ({ key, unit }) => `${key} ${unit}`).values()]
  return kinds.map(([result]) => {
    const { key, label, unit } = result!
    return {
      head: writtenUnit(unit) === '' ? label : `${label} (${writtenUnit(unit)})`,
      fit: true,
      align: 'right',
      cell: (one) => {
        const found = one.results.find((other) => other.key === key && (other.unit === unit || other.unit === ''))
        if (found === undefined) return paint(one, words.dash)
        if (found.shown === '') return paint(one, words.noResult)
        const shown = format.digits(withoutUnit(found.shown, unit))
        return isVoid(one) ? paint(one, shown) : { text: shown, strong: true }
      },
    }
  })
}

/** Step and act; once where both are one word: a specimen that is void. */
const actName = (step: string, label: string, between: string) =>
  [step, label]
    .filter((part, index, all) => part !== '' && (index > 0 || part.toLowerCase() !== all[1]!.toLowerCase()))
    .join(between)

/** As often as an act may come again in a column of its own; what was seen may be noted any number of times. */
const mostTurns = 3

/**
 * The column of an act: its step and name and, where each specimen had it as often, which time it was. So the first and the
 * second cooling of a specimen stand in columns of their own, in their order.
 */
function turnOf(specimens: readonly SignedSpecimen[]): (event: SignedSpecimen['events'][number]) => string {
  const turns = new Map<SignedSpecimen['events'][number], number>()
  const counts = new Map<string, Set<number>>()
  const nameOf = ({ step, label }: SignedSpecimen['events'][number]) => `${step}\n${label}`
  for (const specimen of specimens)
    for (const [name, alike] of groupedBy(specimen.events, nameOf)) {
      alike.forEach((event, turn) => turns.set(event, turn))
      // A void one stopped somewhere, and does not say how often an act comes again.
      if (!isVoid(specimen)) counts.set(name, (counts.get(name) ?? new Set()).add(alike.length))
    }
  return (event) => {
    const [often = 0, ...others] = counts.get(nameOf(event)) ?? []
    return others.length === 0 && often <= mostTurns ? `${nameOf(event)}\n${turns.get(event) ?? 0}` : nameOf(event)
  }
}

function drawTimes(
  sheet: Sheet,
  method: string,
  specimens: readonly SignedSpecimen[],
  equipment: NonNullable<SignedContent['equipment']>,
): void {
  if (specimens.every(({ events, batch, readings }) => events.length + batch.length + readings.length === 0)) return
  const { words, format } = sheet
  const kindOf = turnOf(specimens)
  const kinds = groupedBy(
    specimens
      .flatMap(({ events }) => events)
      .toSorted((a, b) => Number(a.eventAt > b.eventAt) - Number(a.eventAt < b.eventAt)),
    kindOf,
  )
  /** Times of a specimen's events in order of the columns; a day is written where it changes. */
  const timesOf = (one: SignedSpecimen) => {
    let day = ''
    return new Map(
      [...kinds.keys()].map((kind) => {
        const events = one.events.filter((event) => kindOf(event) === kind)
        const shown = events.map(({ eventAt }) => {
          const same = format.day(eventAt) === day
          day = format.day(eventAt)
          return same ? format.timeOfDay(eventAt) : format.shortTime(eventAt)
        })
        return [kind, shown.join('\n')] as const
      }),
    )
  }
  const unique = (parts: readonly string[]) => [...new Set(parts.filter((part) => part !== ''))].join(', ')
  const readingsOf = (one: SignedSpecimen) => [...one.batch, ...one.readings]
  drawSpecimenTable(sheet, specimens, {
    name: words.times(method),
    groups: [
      [...kinds].map(([kind, events]) => {
        const { step, label } = events[0]!
        return {
          head: actName(step, label, ': '),
          fit: true,
          least: 29,
          cell: (one) => timesOf(one).get(kind) || words.dash,
        }
      }),
    ],
    last: [
      {
        head: words.doneBy,
        share: 0.6,
        cell: (one) => unique([...readingsOf(one), ...one.events].map(({ by }) => by)),
      },
      {
        head: words.instrumentsHead,
        share: 1.2,
        cell: (one) =>
          unique([
            ...readingsOf(one).map(({ instrument }) => instrument),
            ...equipment.flatMap(({ code, instruments }) => (code === one.code ? instruments : [])),
          ]),
      },
    ],
    lastWidth: 92,
  })
}

/** What was noted with an act, once for all specimens of which it was said in the same words. */
function drawEventNotes(sheet: Sheet, specimens: readonly SignedSpecimen[]): void {
  const codesOf = new Map<string, string[]>()
  for (const { code, events } of specimens)
    for (const { step, label, note } of events.filter((event) => event.note !== '')) {
      const said = `${actName(step, label, ', ')}: ${note}`
      codesOf.set(said, [...(codesOf.get(said) ?? []), code])
    }
  if (codesOf.size === 0) return
  sheet.heading(sheet.words.eventNotes, { level: 2, keep: 30 })
  for (const [said, codes] of codesOf) sheet.paragraph(`${said} (${codes.join(', ')})`, styles.quiet, { after: 1.5 })
  sheet.gap(5)
}
