import type { Ovens } from '@curebook/contract/loads'
import { expect, test } from 'vitest'
import type { OutboxEntry } from '#lib/outbox/outbox-entry.ts'
import { notInThese, waitingLoads, withWaiting } from './waiting-loads.ts'

const me = { membershipId: 'me', name: 'Me', initials: 'M' }
const at = '2026-03-05T08:00:00.000Z'
const specimen = (testId: string) => ({
  testId,
  code: testId.toUpperCase(),
  label: testId,
  designId: null,
  designName: null,
  methodName: '',
  stepKey: 'cure',
  stepTitle: 'Cure in the oven',
  endsHere: true,
  opensAt: at,
  closesAt: at,
  emulsionPercent: '10',
})
const standing = (testId: string) => ({ ...specimen(testId), since: '2026-03-05T07:00:00.000Z' })
const load = {
  id: 'old',
  kind: 'oven',
  instrumentId: 'ov',
  openedAt: '2026-03-05T07:00:00.000Z',
  by: me,
  specimens: [standing('a'), standing('b')],
  temperatures: [],
  checks: [],
  constantMass: { reached: true, sentence: 'Constant.' },
} as const
const ovens: Ovens = {
  now: at,
  instruments: [
    {
      id: 'ov',
      code: 'OV-1',
      name: '',
      kind: 'oven',
      fault: null,
      loads: [{ ...load, specimens: [...load.specimens], temperatures: [], checks: [] }],
      alone: [],
    },
    { id: 'ov2', code: 'OV-2', name: '', kind: 'oven', fault: null, loads: [], alone: [] },
  ],
  readers: [],
  waiting: ['c', 'd', 'e'].map((testId) => ({ ...specimen(testId), kind: 'oven' as const })),
  unplaced: [],
}
let order = 0
const entry = (
  loadId: string,
  way: string,
  testIds: readonly string[],
  more: Partial<OutboxEntry> = {},
): OutboxEntry => ({
  id: `${way} ${loadId} ${testIds.join()}`,
  lane: `load/${loadId}`,
  path: `/api/labs/l/loads/${loadId}/${way}`,
  body: {
    rows: testIds.map((testId) => ({ id: `row ${testId}`, testId, stepKey: 'cure' })),
    time: { eventAt: at },
    ...(way === 'in' ? { opens: loadId === 'old' ? 'ov' : 'ov2' } : {}),
  },
  label: `${way} ${testIds.join()}`,
  topics: [],
  labId: 'l',
  membershipId: 'me',
  personName: 'Me',
  queuedAt: at,
  order: (order += 1),
  attempts: 0,
  state: 'queued',
  ...more,
})
const shown = (...entries: OutboxEntry[]) => {
  const { instruments, waiting } = withWaiting(ovens, waitingLoads(entries, 'me'), me)
  const loads = instruments.flatMap((one) => one.loads)
  return {
    waiting: waiting.map(({ testId }) => testId).join(''),
    loads: Object.fromEntries(loads.map(({ id, specimens }) => [id, specimens.map((one) => one.testId).join('')])),
    whole: loads,
  }
}

test('what was put in without a network stands in its load, which is opened with it, and can be taken out of it', () => {
  const putIn = entry('new', 'in', ['c', 'd'])
  expect(shown(putIn)).toMatchObject({ waiting: 'e', loads: { old: 'ab', new: 'cd' } })
  expect(shown(putIn).whole[1]).toMatchObject({
    instrumentId: 'ov2',
    openedAt: at,
    by: me,
    specimens: [{ testId: 'c', since: at, opensAt: null, closesAt: null, endsHere: true }, {}],
  })
  expect(shown(putIn, entry('new', 'out', ['c']), entry('new', 'in', ['e']))).toMatchObject({
    waiting: '',
    loads: { old: 'ab', new: 'de' },
  })
})

test('with what stands there already nobody says that it is dry; taken out it stands there no more', () => {
  const { whole } = shown(entry('old', 'in', ['e']))
  expect(whole[0]).toMatchObject({ constantMass: null, specimens: [{}, {}, { testId: 'e' }] })
  expect(shown(entry('old', 'out', ['a'])).whole[0]).toMatchObject({
    constantMass: { reached: true },
    specimens: [{ testId: 'b' }],
  })
})

test('what the record has already, and what is refused or of another person, changes nothing', () => {
  const same = { waiting: 'cde', loads: { old: 'ab' } }
  expect(shown(entry('old', 'in', ['a']))).toMatchObject(same)
  expect(shown(entry('old', 'in', ['c'], { state: 'refused' }))).toMatchObject(same)
  expect(shown(entry('old', 'in', ['c'], { membershipId: 'other' }))).toMatchObject(same)
  expect(shown(entry('old', 'readings', []))).toMatchObject(same)
})

test('what belongs to no oven that is shown is shown apart, all of it where there is none', () => {
  const acts = waitingLoads(
    [entry('old', 'readings', []), entry('gone', 'out', ['a']), entry('new', 'in', ['c'])],
    'me',
  )
  const apart = (shownOvens: Ovens) => notInThese(shownOvens, acts).map(({ loadId }) => loadId)
  expect(apart(ovens)).toEqual(['gone'])
  expect(apart({ ...ovens, instruments: [] })).toEqual(['old', 'gone', 'new'])
})

test('each is told with its time, why it was refused, and what it waits behind', () => {
  const problem = { code: 'refused-by-rule', status: 422, message: 'It is closed.', errors: [], extra: {} }
  const told = waitingLoads(
    [
      entry('old', 'readings', [], { label: 'Temperature 60.2', state: 'refused', problem }),
      entry('old', 'out', ['a']),
      entry('t', 'x', [], { path: '/api/labs/l/tests/t/readings' }),
    ],
    'me',
  )
  expect(told).toMatchObject([
    { way: 'read', loadId: 'old', refused: true, reason: 'It is closed.', at, behind: undefined },
    { way: 'out', testIds: ['a'], refused: false, behind: 'Temperature 60.2' },
  ])
})
