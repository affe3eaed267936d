import type { PutIn, TakeOut } from '@curebook/contract/loads'
import { expect, test } from 'vitest'
import type { OutboxEntry } from '#lib/outbox/outbox-entry.ts'
import { loadOfRefused, temperaturesElsewhere, withCarriedOver } from './carry-over.ts'

const time = {
  eventAt: '2026-03-05T08:01:00.000Z',
  eventFrom: 'now',
  toldAt: '',
  sentAt: '',
} as unknown as PutIn['time']
const temperature = { id: 'reading', typed: '60.4', instrumentId: null }
const rows = [{ id: 'row', testId: 't1', stepKey: 'cure' }]
const path = (load: string, way: string) => `/api/labs/l/loads/${load}/${way}`
const problem = { code: 'refused-by-rule', status: 422, message: 'No.', errors: [], extra: {} }
const refused = (load: string, way: string, body: object, more: Partial<OutboxEntry['problem']> = {}): OutboxEntry => ({
  id: `${way} ${load}`,
  lane: `load/${load}`,
  path: path(load, way),
  body: { rows, time, temperature, ...body },
  label: '',
  topics: [],
  labId: 'l',
  membershipId: 'me',
  personName: 'Me',
  queuedAt: '',
  order: 1,
  attempts: 1,
  state: 'refused',
  problem: { ...problem, ...more },
})
const putIn: PutIn = { opens: 'oven', rows, time, temperature: null }
const takeOut: TakeOut = { rows, time, temperature: null, word: '' }

test('the temperature and the word of the refused act go with the new one, unless it has its own', () => {
  expect(withCarriedOver(putIn, path('new', 'in'), [refused('x', 'in', { opens: 'oven' })])).toEqual({
    ...putIn,
    temperature,
  })
  const out = refused('x', 'out', { word: 'Oven needed' })
  expect(withCarriedOver(takeOut, path('x', 'out'), [out])).toEqual({ ...takeOut, temperature, word: 'Oven needed' })
  const own = { ...takeOut, temperature: { ...temperature, id: 'own', typed: '61' }, word: 'Window closes' }
  expect(withCarriedOver(own, path('x', 'out'), [out])).toEqual(own)
})

test('nothing comes from another oven or load, and nothing that the record has or that was what is wrong', () => {
  const of = (...entries: OutboxEntry[]) => withCarriedOver(putIn, path('x', 'in'), entries).temperature
  expect(of(refused('y', 'in', { opens: 'other' }))).toBeNull()
  expect(withCarriedOver(takeOut, path('x', 'out'), [refused('y', 'out', { word: 'Oven needed' })])).toEqual(takeOut)
  expect(
    of(refused('x', 'in', {}, { errors: [{ path: 'temperature.typed', message: 'Too many digits.' }] })),
  ).toBeNull()
  const answer = { outcome: { rows: [] }, load: { temperatures: [{ id: 'reading' }] } }
  expect(of(refused('x', 'in', {}, { code: 'refused-rows', extra: { answer } }))).toBeNull()
})

test('a new load of the same oven is the one that the refused act would have opened, where none stands under it', () => {
  const before = [refused('x', 'in', { opens: 'oven' })]
  expect(loadOfRefused(before, 'oven', [])).toBe('x')
  expect(loadOfRefused(before, 'other', [])).toBeUndefined()
  expect(loadOfRefused(before, 'oven', ['x'])).toBeUndefined()
  expect(loadOfRefused([refused('x', 'out', {})], 'oven', [])).toBeUndefined()
})

test('what was read where nothing is confirmed any more goes by itself, once, at its own time', () => {
  const into = refused('x', 'in', { opens: 'oven' })
  expect(temperaturesElsewhere([into, { ...into, id: 'another specimen of it' }])).toMatchObject([
    {
      id: 'reading',
      lane: 'log/oven',
      path: '/api/labs/l/instruments/oven/conditions',
      body: { values: [{ id: 'reading', value: '60.4' }], time },
    },
  ])
  expect(temperaturesElsewhere([refused('x', 'out', {})])).toMatchObject([
    { id: 'reading', lane: 'load/x', path: '/api/labs/l/loads/x/readings', body: { typed: '60.4', time } },
  ])
  expect(temperaturesElsewhere([refused('x', 'in', { opens: 'oven', temperature: null })])).toEqual([])
})
