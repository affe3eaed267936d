import { newId } from '../../apps/api/src/platform/uuid.ts'
import { nothing, read, readAll, stale, once, now, time, type RouteCase } from './route-case.ts'
import { designCases } from './design-cases.ts'

export type { RouteCase } from './route-case.ts'

const writtenSpecification = () => ({
  id: newId(),
  name: 'County limits',
  source: 'County standard, 2026',
  aggregateType: 'Type II',
  traffic: 'heavy',
  residualBand: { from: '6', to: '10', source: 'County standard, 2026', certainty: 'published' },
  limits: [
    {
      key: 'mix-time',
      property: 'mix-time',
      label: 'Mix time',
      sense: 'min',
      value: '150',
      unit: 's',
      rounding: 'none',
      decisionRule: 'simple acceptance',
      source: 'County standard, 2026',
      certainty: 'published',
    },
  ],
})

/** Routes of a laboratory, as `METHOD /address` below /api/labs/:lab. */
export const laboratoryCases: Readonly<Record<string, RouteCase>> = {
  'GET /': readAll,
  'PATCH /': { ...stale, body: () => ({ name: 'Another name' }), own: 412, ...nothing },
  'GET /events': readAll,

  'GET /wall-screens': readAll,
  'POST /wall-screens': { body: () => ({ id: newId(), name: 'Bench room' }), own: 201, ...nothing },
  'POST /wall-screens/:screen/codes': { body: () => ({ id: newId() }), own: 201 },
  'POST /wall-screens/:screen/end': { own: 200 },

  'GET /device/people': readAll,
  // No request here comes from a device that somebody signed in on.
  'POST /device/switch': { body: ({ person }) => ({ membershipId: person, pin: '2468' }), own: 409 },

  'GET /signed-in': readAll,
  // Each laboratory's own person is signed in on the device named here.
  'POST /signed-in/:session/end': { body: () => ({ reason: 'Left on a site' }), own: 204 },

  'GET /mail': readAll,
  'GET /mail/wishes': readAll,
  'PUT /mail/wishes': {
    body: () => ({ windowMinutes: 30, notices: true, reports: false, answers: false }),
    own: 200,
    ...nothing,
  },

  // Nothing is running of whoever asks here, and nobody shows a code.
  'POST /hand-overs': { body: () => ({ id: newId() }), own: [201, 409], ...nothing },
  'POST /hand-overs/look-up': { body: () => ({ code: 'AAAA-2222' }), own: 404, ...nothing },
  'POST /hand-overs/take': {
    ...once(),
    body: ({ test }) => ({ code: 'AAAA-2222', testIds: [test] }),
    own: 404,
  },

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
  'GET /projects/:project/expected-days': read,
  'POST /projects/:project/expected-days': {
    body: () => ({ id: newId(), day: '2026-05-04', after: null }),
    own: 412,
  },
  'GET /questions': {
    query: ({ project }) => `?projectId=${project}`,
    own: 200,
    foreign: 200,
    foreignSays: '"items":[]',
  },
  'POST /questions/:question/answers': { body: () => ({ id: newId(), text: 'By Friday' }), own: 201 },
  'POST /own-questions': {
    body: ({ project }) => ({ id: newId(), projectId: project, reportId: null, text: 'When is it done?' }),
    own: 201,
  },
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
  'POST /items/:item/receipt-corrections': {
    body: () => ({ id: newId(), supersedesId: newId(), reason: 'Misread', receipt: {} }),
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
  'GET /specifications/:specification': read,
  'POST /specifications/own': { body: () => writtenSpecification(), own: 201, ...nothing },
  'POST /specifications/:specification/versions': {
    body: () => ({ ...writtenSpecification(), reason: 'Addendum' }),
    own: [201, 409],
  },
  // A version stands on top of it by then.
  'POST /specifications/:specification/withdraw': { body: () => ({ id: newId(), reason: 'Replaced' }), own: 409 },
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
  'GET /methods/:method/example': readAll,
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
  'GET /instrument-imports': readAll,
  'POST /instrument-imports/preview': {
    body: () => ({ content: 'code,kind,name\nB-9,balance,Bench balance\n' }),
    own: 200,
    ...nothing,
  },
  'POST /instrument-imports': {
    body: () => ({ id: newId(), fileName: 'instruments.csv', content: 'code,kind,name\nB-9,lorry,Bench balance\n' }),
    own: 400,
    ...nothing,
  },
  'POST /instrument-imports/:import/withdrawal': { body: () => ({ id: newId(), reason: 'Wrong file' }), own: 404 },
  'GET /instruments/:instrument/parts': read,
  'POST /instruments/:instrument/parts': {
    body: () => ({ id: newId(), kind: 'hose', lot: 'H-07', time: time() }),
    own: 201,
  },
  'GET /instruments/:instrument/lines': read,
  'POST /instruments/:instrument/lines': {
    body: () => ({
      id: newId(),
      ...{ baudRate: 9600, dataBits: 8, parity: 'none', stopBits: 1 },
      example: 'ST,GS,+  0812.4 g',
      shown: '812.4',
    }),
    // The instrument here is a machine, and balances alone send: an allowed role is told so.
    own: 400,
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
  'POST /instruments/:instrument/conditions/:value/corrections': {
    body: () => ({ id: newId(), value: '25.1', reason: 'Digits transposed' }),
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
  // No request here comes from a browser that was paired.
  'GET /api/wall': readAll,
  'POST /api/wall/pairing': { body: () => ({ code: 'AAAA-2222' }), own: 404, ...nothing },
}
