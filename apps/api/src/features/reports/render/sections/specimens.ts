import type { SignedContent, SignedSpecimen } from '@curebook/contract/signed-content'
import { groupedBy } from '../grouped-by.ts'
import { colours, styles } from '../paper.ts'
import type { Sheet } from '../sheet.ts'
import { drawSpecimenTable, type SpecimenColumn } from './specimen-table.ts'

/** Every specimen of every method: batch as weighed, readings as typed, results, remarks; then times, people, instruments. */
export function drawSpecimens(sheet: Sheet, content: SignedContent): void {
  if (content.specimens.length === 0) return
  sheet.heading(sheet.words.specimens)
  sheet.paragraph(sheet.words.specimensNote, styles.quiet)
  for (const [method, specimens] of groupedBy(content.specimens, (specimen) => specimen.method)) {
    drawReadings(sheet, method, specimens)
    drawTimes(sheet, method, specimens)
    drawEventNotes(sheet, specimens)
  }
}

type Readings = SignedSpecimen['readings']
const isVoid = ({ state }: SignedSpecimen) => state === 'void'
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
  drawSpecimenTable(sheet, specimens, {
    name: method,
    columns: [
      number(words.targetShort, (one) => format.digits(one.emulsionTarget)),
      ...readingColumns(sheet, specimens, (one) => one.batch),
      number(words.emulsionAsWeighed, (one) => format.fixed(one.emulsionAsWeighed, 2)),
      number(words.residualAsWeighed, (one) => format.fixed(one.residualAsWeighed, 3)),
      ...readingColumns(sheet, specimens, (one) => one.readings),
      ...resultColumns(sheet, specimens),
    ],
    last: [
      {
        head: words.remark,
        share: 1,
        cell: (one) => {
          const state = one.state === 'done' ? '' : one.state
          const text = [state, one.remark].filter((part) => part !== '').join('; ')
          return isVoid(one) ? { text, strong: true, colour: colours.lost } : text
        },
      },
    ],
    lastWidth: 66,
  })
}

function readingColumns(
  sheet: Sheet,
  specimens: readonly SignedSpecimen[],
  of: (specimen: SignedSpecimen) => Readings,
): SpecimenColumn[] {
  const kindOf = ({ step, label }: Readings[number]) => `${step}\n${label}`
  const kinds = groupedBy(specimens.flatMap(of), kindOf)
  const first = [...kinds.values()].map(([reading]) => reading!)
  return [...kinds].map(([kind, readings]) => {
    const { step, label, unit } = readings[0]!
    const alike = first.filter((other) => other.label === label).length > 1
    const sameStep = first.filter((other) => other.step === step).length > 1
    const name = !alike ? label : sameStep ? `${step}: ${label}` : step
    const numeric = readings.every(({ typed }) => /^[+\-−]?\d/.test(typed))
    return {
      head: unit === '' ? name : `${name} (${unit})`,
      fit: true,
      ...(numeric ? { align: 'right' as const } : {}),
      cell: (one) => {
        const shown = of(one)
          .filter((reading) => kindOf(reading) === kind)
          .map(({ typed, corrected }) => (corrected === '' ? typed : `${typed}\u00a0†`))
        return paint(one, shown.join('\n') || sheet.words.dash)
      },
    }
  })
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
      head: unit === '' ? label : `${label} (${unit})`,
      fit: true,
      align: 'right',
      cell: (one) => {
        const found = one.results.find((other) => other.key === key && (other.unit === unit || other.unit === ''))
        if (found === undefined) return paint(one, words.dash)
        if (found.shown === '') return paint(one, words.refused(found.refusal))
        return isVoid(one) ? paint(one, format.digits(found.shown)) : { text: format.digits(found.shown), strong: true }
      },
    }
  })
}

function drawTimes(sheet: Sheet, method: string, specimens: readonly SignedSpecimen[]): void {
  const { words, format } = sheet
  const kindOf = ({ step, label }: SignedSpecimen['events'][number]) => `${step}\n${label}`
  const kinds = groupedBy(
    specimens.flatMap(({ events }) => events),
    kindOf,
  )
  const unique = (parts: readonly string[]) => [...new Set(parts.filter((part) => part !== ''))].join(', ')
  const readingsOf = (one: SignedSpecimen) => [...one.batch, ...one.readings]
  drawSpecimenTable(sheet, specimens, {
    name: words.times(method),
    columns: [...kinds].map(([kind, events]) => {
      const { step, label } = events[0]!
      return {
        head: [step, label].filter((part, index, all) => part !== '' && all.indexOf(part) === index).join(': '),
        fit: true,
        cell: (one) => {
          const times = one.events.filter((event) => kindOf(event) === kind)
          return times.map(({ eventAt }) => format.shortTime(eventAt)).join('\n') || words.dash
        },
      }
    }),
    last: [
      {
        head: words.doneBy,
        share: 1.2,
        cell: (one) => unique([...readingsOf(one), ...one.events].map(({ by }) => by)),
      },
      {
        head: words.instrumentsHead,
        share: 1,
        cell: (one) => unique(readingsOf(one).map(({ instrument }) => instrument)),
      },
    ],
    lastWidth: 96,
  })
}

function drawEventNotes(sheet: Sheet, specimens: readonly SignedSpecimen[]): void {
  const notes = specimens.flatMap(({ code, events }) =>
    events
      .filter(({ note }) => note !== '')
      .map(({ step, label, note }) => `${code}, ${[step, label].filter((part) => part !== '').join(', ')}: ${note}`),
  )
  if (notes.length === 0) return
  sheet.heading(sheet.words.eventNotes, { level: 2, keep: 30 })
  for (const note of notes) sheet.paragraph(note, styles.quiet, { after: 1.5 })
  sheet.gap(5)
}
