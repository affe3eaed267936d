import { newId } from '../../apps/api/src/platform/uuid.ts'
import { nothing, read, readAll, stale, once, now, time, type RouteCase } from './route-case.ts'
import { designCases } from './design-cases.ts'

export type { RouteCase } from './route-case.ts'

/** Routes of a laboratory, as `METHOD /address` below /api/labs/:lab. */
export const laboratoryCases: Readonly<Record<string, RouteCase>> = {
  'GET /': readAll,
  'PATCH /': { ...stale, body: () => ({ name: 'Another name' }), own: 412, ...nothing },
  'GET /events': readAll,

  'GET /device/people': readAll,
  // No request here comes from a device that somebody signed in on.
  'POST /device/switch': { body: ({ person }) => ({ membershipId: person, pin: '2468' }), own: 409 },

  'GET /search': { query: ({ test }) => `?q=${test.slice(0, 8)}`, own: 200, ...nothing },

  'GET /people': readAll,
  'PATCH /people/:person': { ...stale, body: () => ({ initials: 'XY' }), own: 412 },
  'GET /authorisations': readAll,
  'POST /authorisations': {
    body: ({ person }) => ({
      id: newId(),
      membershipId: person,
      activity: 'release',
      fromDay: '2026-03-01',
      evidence: 'Observed twice',
    }),
    own: 201,
    foreign: 400,
  },
  'POST /authorisations/:authorisation/corrections': {
    body: () => ({ id: newId(), fromDay: '2026-03-01', evidence: 'Observed three times', reason: 'Seen again' }),
    own: [201, 409],
  },
  'GET /invitations': readAll,
  'POST /invitations': {
    body: () => ({
      id: newId(),
      email: `new.${newId().slice(-8)}@ternhollow.example`,
      name: 'New Person',
      roles: ['technician'],
    }),
    own: 201,
    ...nothing,
  },
  'DELETE /invitations/:invitation': { own: [200, 204] },

  'GET /clients': readAll,
  'POST /clients': { body: () => ({ id: newId(), name: `Client ${newId().slice(-6)}` }), own: 201, ...nothing },
  'GET /projects': readAll,
  'GET /projects/:project': read,
  'POST /projects': {
    body: ({ client }) => ({ id: newId(), clientId: client, name: 'Another overlay', kind: 'full' }),
    own: 201,
    foreign: 400,
  },
  'PATCH /projects/:project': { ...stale, body: () => ({ name: 'Another name' }), own: 412 },
  'GET /materials': readAll,
  'POST /materials': {
    body: () => ({ id: newId(), kind: 'filler', name: 'Cement', sourceName: 'Merchant', receivedOn: '2026-03-02' }),
    own: 201,
    ...nothing,
  },
  'GET /items/:item': read,
  'GET /items/:item/label': read,
  'POST /items/:item/label-prints': { ...once(), body: () => ({ count: 1 }), own: 200 },
  'POST /items/:item/custody': {
    body: () => ({ id: newId(), after: null, kind: 'taken', time: time() }),
    own: 409,
  },
  'GET /places': readAll,
  'GET /stock': readAll,
  'POST /places': {
    body: () => ({ id: newId(), name: `Store ${newId().slice(-6)}`, kind: 'store', accessControlled: true }),
    own: 201,
    ...nothing,
  },
  'GET /specifications': readAll,
  'GET /specifications/built-in': readAll,
  'POST /specifications': {
    body: () => ({
      id: newId(),
      builtInKey: 'issa-a143-2010',
      name: 'Guideline',
      aggregateType: 'Type II',
      traffic: 'heavy',
      changes: [],
    }),
    own: 201,
    ...nothing,
  },
  'GET /methods': readAll,
  'GET /methods/:method': readAll,
  'POST /methods/:method/editions': {
    body: ({ edition }) => ({
      id: newId(),
      copiedFrom: edition,
      changes: [{ parameter: 'cure-latest', value: '30', source: 'Laboratory trial', certainty: 'common practice' }],
      effectiveFrom: '2027-01-01',
      reason: 'Larger oven',
    }),
    own: 201,
    foreign: 400,
  },
  'GET /instruments': readAll,
  'GET /instruments/:instrument': read,
  'POST /instruments': {
    body: () => ({ id: newId(), code: `B-${newId().slice(-6)}`, kind: 'balance', name: 'Bench balance' }),
    own: 201,
    ...nothing,
  },
  'PATCH /instruments/:instrument': { ...stale, body: () => ({ place: 'Bench 2' }), own: 412 },
  'POST /instruments/:instrument/factors': {
    body: () => ({
      id: newId(),
      key: 'area',
      typed: '3.06',
      unit: 'g/ft²',
      measuredAreaCm2: null,
      edition: 'From memory',
      effectiveFrom: '2026-01-01',
    }),
    own: 201,
  },
  'POST /instruments/:instrument/calibrations': {
    body: () => ({ id: newId(), doneOn: '2026-01-05', validUntil: '2027-01-05', certificate: 'C-1', passed: true }),
    own: 201,
  },
  'GET /instruments/:instrument/parts': read,
  'POST /instruments/:instrument/parts': {
    body: () => ({ id: newId(), kind: 'hose', lot: 'H-07', time: time() }),
    own: 201,
  },
  'GET /instruments/:instrument/checks': read,
  'POST /instruments/:instrument/checks': {
    body: () => ({
      id: newId(),
      kind: 'dimension',
      typed: '14.1',
      bounds: { nominal: '14', tolerance: '0.5', unit: 'mm', source: 'Own sheet' },
      time: time(),
    }),
    own: 201,
  },

  'POST /attachments': {
    body: () => ({ id: newId(), name: 'cups.csv', mediaType: 'text/csv', base64: 'Y3VwO3MK' }),
    own: 201,
    ...nothing,
  },
  'GET /attachments/:attachment': read,

  // A machine keeps no log of temperatures, which is what its own people are told.
  'GET /instruments/:instrument/conditions': { own: 409 },
  'POST /instruments/:instrument/conditions': {
    body: () => ({ values: [{ id: newId(), at: now(), value: '25.1' }] }),
    own: 409,
  },
  'POST /instruments/:instrument/keys': { body: () => ({ id: newId() }), own: 409 },
  'GET /loads': readAll,
  'GET /loads/:load': read,
  'POST /loads': {
    body: ({ oven }) => ({ id: newId(), instrumentId: oven, time: time() }),
    own: 201,
    foreign: 400,
  },
  'POST /loads/:load/in': {
    body: ({ test }) => ({ rows: [{ id: newId(), testId: test, stepKey: 'cure' }], time: time() }),
    own: 200,
  },
  'POST /loads/:load/out': {
    body: ({ test }) => ({ rows: [{ id: newId(), testId: test, stepKey: 'cure' }], time: time() }),
    own: 200,
  },
  'POST /loads/:load/readings': {
    body: () => ({ id: newId(), key: 'temperature', typed: '60.4', time: time() }),
    own: 201,
  },

  ...designCases,
}

/** Routes of an account, which no laboratory stands before. */
export const accountCases: Readonly<Record<string, RouteCase>> = {
  'GET /api/session': readAll,
  'DELETE /api/session': { own: 204, ...nothing },
  'POST /api/session/sign-out-everywhere': { own: 204, ...nothing },
  'GET /api/account/sessions': readAll,
  'DELETE /api/account/sessions/:session': { own: 204, ...nothing },
  'POST /api/session/unlock': { body: () => ({}), own: 400, ...nothing },
  'GET /api/account/pin': readAll,
  'POST /api/account/pin': { body: () => ({}), own: 400, ...nothing },
  'POST /api/account/pin/end': { body: () => ({}), own: 400, ...nothing },
  'POST /api/account/password': { body: () => ({}), own: 400, ...nothing },
  'POST /api/account/second-factor': { body: () => ({}), own: 400, ...nothing },
  'POST /api/account/second-factor/confirm': { body: () => ({}), own: 400, ...nothing },
  'POST /api/account/second-factor/end': { body: () => ({}), own: 400, ...nothing },
}

/** Routes for anybody. */
export const publicCases: Readonly<Record<string, RouteCase>> = {
  'GET /health/live': readAll,
  'GET /health/ready': readAll,
  'GET /metrics': readAll,
  'POST /api/session': { body: () => ({}), own: 400, ...nothing },
  'POST /api/session/second-factor': { body: () => ({}), own: 400, ...nothing },
  'GET /api/first-run': readAll,
  'POST /api/first-run': { body: () => ({}), own: 400, ...nothing },
  'POST /api/invitations/look-up': { body: () => ({}), own: 400, ...nothing },
  'POST /api/invitations/accept': { body: () => ({}), own: 400, ...nothing },
  'POST /api/conditions': {
    body: () => ({ values: [{ id: newId(), at: now(), value: '25.1' }] }),
    own: 404,
    ...nothing,
  },
  'GET /api/check/:code': readAll,
}
