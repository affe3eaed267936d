import type { ScheduleRow } from '@curebook/contract/schedule'
import { describe, expect, test } from 'vitest'
import { loadOf } from './person-load.ts'
import { csvName, csvOf, fileCells } from './schedule-csv.ts'
import { changesBetween, countsOf, filteredRows, judgedAt, needReason, noFilters } from './schedule-view.ts'

const clock = { now: '2026-03-05T10:00:00Z', zone: 'Europe/London' }
const ada = { membershipId: 'ada', name: 'Ada Quill', initials: 'AQ' }
const row = (testId: string, text: Partial<ScheduleRow> = {}): ScheduleRow => ({
  testId,
  itemId: testId,
  code: testId,
  label: testId,
  designId: 'd1',
  designName: 'Design',
  projectName: 'Project',
  form: 'disc',
  methodKey: 'abrasion',
  methodName: 'Abrasion',
  stepKey: 'abrade',
  act: 'start',
  stepTitle: 'Abrade',
  opensAt: '2026-03-05T09:00:00Z',
  closesAt: '2026-03-05T11:00:00Z',
  urgency: 'open',
  assignee: ada,
  started: false,
  held: null,
  ...text,
})
const ended = { stepKey: null, act: null, opensAt: null, closesAt: null, urgency: 'any-time', started: true } as const
const rows = [
  row('late', { closesAt: '2026-03-05T09:30:00Z', urgency: 'late' }),
  row('today', { assignee: null }),
  row('tomorrow', { closesAt: '2026-03-06T11:00:00Z' }),
  row('free', { opensAt: null, closesAt: null, urgency: 'any-time', methodKey: 'batch', designId: 'd2' }),
  row('overslept', { closesAt: '2026-03-05T09:30:00Z', urgency: 'late', started: true }),
  row('odd', { opensAt: null, closesAt: null, urgency: 'any-time', started: true, held: 'decision' }),
  row('ended', { ...ended, held: 'decision', assignee: null }),
  row('void', { ...ended, held: 'spare', assignee: null }),
]
const idsOf = (list: readonly ScheduleRow[]) => list.map(({ testId }) => testId)

describe('the schedule of a manager (ux M1, M9)', () => {
  test('each number is that of exactly the rows behind its link', () => {
    const counts = countsOf(rows, clock)
    expect(counts).toEqual({ late: 2, 'due-today': 1, stuck: 4, unassigned: 1, waiting: 2 })
    for (const [show, count] of Object.entries(counts))
      expect(filteredRows(rows, { ...noFilters, show }, clock)).toHaveLength(count)
  })
  test('stuck is what overslept its window or is held; what is ended shows only where it is asked what is held', () => {
    const shown = (show: string) => idsOf(filteredRows(rows, { ...noFilters, show }, clock))
    expect(shown('stuck')).toEqual(['overslept', 'odd', 'ended', 'void'])
    expect(shown('waiting')).toEqual(['odd', 'ended'])
    expect(shown('')).toEqual(['late', 'today', 'tomorrow', 'free', 'overslept', 'odd'])
  })
  test('filters narrow each other, and nobody is a person to filter by', () => {
    expect(idsOf(filteredRows(rows, { ...noFilters, person: 'nobody' }, clock))).toEqual(['today'])
    expect(idsOf(filteredRows(rows, { ...noFilters, person: 'ada', method: 'abrasion' }, clock))).toEqual([
      'late',
      'tomorrow',
      'overslept',
      'odd',
    ])
    expect(idsOf(filteredRows(rows, { ...noFilters, design: 'd2', show: 'late' }, clock))).toEqual([])
  })
  test('a window that closes while one looks turns late without a word from the server', () => {
    const later = judgedAt(rows, '2026-03-05T11:00:01Z')
    expect(later.find(({ testId }) => testId === 'today')?.urgency).toBe('late')
    expect(later.find(({ testId }) => testId === 'free')).toBe(rows[3])
  })
  test('due today is today in the laboratory’s zone', () => {
    const late = [row('x', { closesAt: '2026-03-06T02:00:00Z' })]
    expect(countsOf(late, { ...clock, zone: 'America/Bogota' })['due-today']).toBe(1)
    expect(countsOf(late, clock)['due-today']).toBe(0)
  })
})

describe('changes of others wait for the reader (ux M11)', () => {
  test('rows that came, went or changed are counted; the passing of time is none', () => {
    const four = rows.slice(0, 4)
    const [late, today, tomorrow, free] = four as [ScheduleRow, ScheduleRow, ScheduleRow, ScheduleRow]
    expect(changesBetween(four, [late, { ...today, urgency: 'closing' }, tomorrow, free])).toBe(0)
    expect(changesBetween(four, [late, { ...today, assignee: ada }, tomorrow, row('new')])).toBe(3)
  })
})

describe('giving tests to a person (ux M2, M5, M6)', () => {
  test('a reason is asked only for begun tests that somebody else has', () => {
    const asked = needReason(
      [row('a', { started: true }), row('b'), row('c', { started: true, assignee: null })],
      'ben',
    )
    expect(idsOf(asked)).toEqual(['a'])
    expect(needReason([row('a', { started: true })], 'ada')).toEqual([])
  })
  test('a load is windows and hours of today, and overlaps of two steps are named', () => {
    const mine = [
      row('a'),
      row('b'),
      row('c', { stepKey: 'weigh', opensAt: '2026-03-05T10:30:00Z', closesAt: '2026-03-05T12:00:00Z' }),
      row('d', { stepKey: 'cast', opensAt: '2026-03-05T14:00:00Z', closesAt: '2026-03-05T15:00:00Z' }),
      row('e', { closesAt: null }),
    ]
    const load = loadOf(mine, clock)
    expect(load.tests).toBe(5)
    expect(load.rounds.map(({ stepKey, tests }) => [stepKey, tests])).toEqual([
      ['abrade', 2],
      ['weigh', 1],
      ['cast', 1],
    ])
    expect(load.openMs).toBe(4 * 3_600_000)
    expect(load.overlapping.map(({ stepKey }) => stepKey)).toEqual(['abrade', 'weigh'])
  })
})

describe('the schedule as a file (ux M12)', () => {
  test('it holds the rows, columns and order of the screen', () => {
    const column = (key: 'label' | 'methodKey') => ({
      key,
      sort: (one: ScheduleRow) => one[key],
      file: [{ head: key, text: (one: ScheduleRow) => one[key] }],
    })
    const shown = filteredRows(rows, { ...noFilters, show: 'late' }, clock)
    expect(fileCells([column('label')], shown, '').rows).toEqual([['late'], ['overslept']])
    expect(fileCells([column('label'), column('methodKey')], shown, '-label')).toEqual({
      heads: ['label', 'methodKey'],
      rows: [
        ['overslept', 'abrasion'],
        ['late', 'abrasion'],
      ],
    })
    // Sorted by a column that is not shown, the order is that of the list.
    expect(fileCells([column('label')], shown, '-methodKey').rows).toEqual([['late'], ['overslept']])
  })
  test('its name has laboratory, view and date', () => {
    expect(csvName('tern-hollow', ['late', 'Ada Quill'], '2026-03-05')).toBe(
      'tern-hollow-schedule-late-ada-quill-2026-03-05.csv',
    )
  })
  test('cells are quoted, formulas disarmed, and the separator follows the decimal sign', () => {
    expect(
      csvOf(
        ['Code', 'Step'],
        [
          ['7KD2', '=1+1'],
          ['7KE4', 'say "go"'],
        ],
        ',',
      ),
    ).toBe('\ufeff"Code";"Step"\r\n"7KD2";"\'=1+1"\r\n"7KE4";"say ""go"""\r\n')
  })
})
