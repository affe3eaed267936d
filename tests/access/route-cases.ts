import { newId } from '../../apps/api/src/platform/uuid.ts'
import { testPassword } from '../support/factories/account.ts'
import type { Subjects } from './filled-laboratory.ts'

/**
 * How one route is asked, and what it answers to whoever may: the gate lies before it, so a body that is refused as
 * incomplete shows as well as a deed that the gate is passed.
 */
export type RouteCase = {
  /** Query, with `?`. */
  readonly query?: (subjects: Subjects) => string
  /** What a body names, all of it valid as far as a stranger could know. */
  readonly body?: (subjects: Subjects) => object
  readonly headers?: Readonly<Record<string, string>>
  /** Status for a person whose role may, by the order in which they ask. */
  readonly own: number | readonly number[]
  /**
   * Status when an address of one's own laboratory, or a body in it, names what belongs to another: not found, unless said
   * otherwise. `names nothing`: the route names nothing of a laboratory.
   */
  readonly foreign?: number | 'names nothing'
  /** Where a foreign id is answered with 200, what the answer must say. */
  readonly foreignSays?: string
}

const nothing = { foreign: 'names nothing' } as const
const read: RouteCase = { own: 200 }
const readAll: RouteCase = { own: 200, ...nothing }
const stale = { headers: { 'if-match': '"99"' } }
const once = () => ({ headers: { 'idempotency-key': newId() } })
const now = () => new Date(Date.parse('2026-03-02T08:00:00Z')).toISOString()
const time = () => ({ eventAt: now(), eventFrom: 'paper', sentAt: now(), note: 'From the notebook' })
const signature = () => ({ id: newId(), digest: '0'.repeat(64), password: testPassword })

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

  'GET /designs': readAll,
  'GET /designs/:design': read,
  'POST /designs': {
    body: ({ project, specification, aggregate, emulsion }) => ({
      id: newId(),
      revisionId: newId(),
      projectId: project,
      name: 'Another design',
      specificationId: specification,
      aggregateId: aggregate,
      emulsionId: emulsion,
      fillerId: null,
      additiveId: null,
      waterId: null,
    }),
    own: 201,
    foreign: 400,
  },
  'PATCH /designs/:design': { ...stale, body: () => ({ name: 'Another name' }), own: 409 },
  'POST /designs/:design/entered-results': {
    body: () => ({
      id: newId(),
      key: 'residue',
      typed: '63.0',
      unit: '%',
      source: 'Own test',
      observedOn: '2026-03-02',
    }),
    own: 409,
  },
  'POST /designs/:design/panel-results': {
    body: () => ({
      id: newId(),
      limitKey: 'mix-time',
      typed: '171',
      unit: 's',
      madeBy: 'entered',
      method: 'TB-113',
      observedBy: 'B. Person',
      observedOn: '2026-03-02',
    }),
    own: 409,
  },
  'POST /designs/:design/plan': {
    ...once(),
    body: () => ({
      contents: [{ emulsionPercent: '13', waterPercent: '10', fillerPercent: '1', additivePercent: '0.2' }],
      methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 1 }],
    }),
    own: 409,
  },
  'GET /designs/:design/trial-cups': read,
  'POST /designs/:design/trial-cups': { body: () => ({ id: newId(), emulsion: '12', water: '10' }), own: 409 },
  'POST /designs/:design/trial-base': { body: () => ({ id: newId(), cupId: newId() }), own: 409 },
  'GET /designs/:design/specimens': read,
  'GET /designs/:design/batch-sheets': read,
  'GET /designs/:design/demand': read,
  'POST /designs/:design/demand': {
    body: () => ({
      contents: [{ emulsionPercent: '12', waterPercent: '10', fillerPercent: '1', additivePercent: '0.2' }],
      methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 3 }],
    }),
    own: 200,
  },
  'GET /designs/:design/range': read,
  'POST /designs/:design/what-if': { body: ({ test }) => ({ without: [test] }), own: 200 },
  'GET /designs/:design/recommendation': read,
  'POST /designs/:design/recommendations': {
    body: () => ({
      id: newId(),
      emulsionPercent: '12',
      toleranceResidualPercent: '0.5',
      water: { from: '8', to: '12' },
      filler: { from: '0', to: '1' },
      additive: { from: '0', to: '1' },
      reason: 'Meets the limits',
    }),
    own: 409,
  },
  'GET /designs/:design/review': read,
  'POST /designs/:design/acknowledgements': {
    body: () => ({ id: newId(), pointKey: 'not-tested:mix-time', word: 'Seen' }),
    own: 409,
  },
  'POST /designs/:design/check': { body: signature, own: 422 },
  'POST /designs/:design/approve': { body: signature, own: 422 },
  'POST /designs/:design/send-back': {
    body: () => ({ id: newId(), reason: 'Look again', points: ['recommendation'] }),
    own: 409,
  },

  'GET /schedule': readAll,
  'POST /schedule/assignment-check': {
    body: ({ test, person }) => ({ testIds: [test], to: person }),
    own: 200,
    foreign: 400,
  },
  'POST /assignments': {
    ...once(),
    body: ({ test, person }) => ({ testIds: [test], to: person }),
    own: 200,
    foreign: 400,
  },
  'GET /bench/queue': readAll,
  'GET /bench/casting/:design': read,
  'GET /bench/put-in': {
    query: ({ design }) => `?methodKey=wet-track-abrasion-1h&designId=${design}`,
    own: 200,
    foreign: 404,
  },
  // Every laboratory begins with the same codes: one's own specimen answers.
  'GET /bench/lookup': { query: ({ code }) => `?code=${code}`, own: 200, foreign: 200 },
  'GET /bench/rack': {
    query: ({ design }) => `?methodKey=wet-track-abrasion-1h&stepKey=weigh-after&readingKey=mass&designId=${design}`,
    own: 200,
    foreign: 200,
    foreignSays: '"rows":[]',
  },
  'GET /tests/:test': read,
  'POST /tests/:test/readings': {
    body: () => ({ id: newId(), stepKey: 'weigh-after', key: 'mass', repeat: 1, typed: '750.0', time: time() }),
    own: 409,
  },
  'POST /readings/:reading/corrections': {
    body: () => ({ id: newId(), typed: '761.9', reason: 'misread', time: time() }),
    own: [201, 409],
  },
  'POST /step-events': {
    body: ({ test }) => ({ stepKey: 'cast', kind: 'start', rows: [{ id: newId(), testId: test }], time: time() }),
    own: 200,
    foreign: 200,
    foreignSays: 'There is no such test in this laboratory',
  },
  'GET /designs/:design/observations': read,
  'POST /tests/:test/observations': {
    body: ({ attachment }) => ({
      id: newId(),
      stepKey: 'cast',
      choice: 'edge-lifted',
      attachmentId: attachment,
      time: time(),
    }),
    own: 201,
  },
  'POST /tests/:test/replace': { body: ({ test }) => ({ spareTestId: test, reason: 'Felt tore' }), own: [400, 409] },
  'POST /tests/:test/void': { body: () => ({ id: newId(), reason: 'Felt tore', time: time() }), own: [200, 409] },
  'GET /deviations': {
    query: ({ design }) => `?designId=${design}`,
    own: 200,
    foreign: 200,
    foreignSays: '"items":[]',
  },
  'POST /deviations/:deviation/decisions': {
    body: () => ({ id: newId(), kind: 'accept', reason: 'In order' }),
    own: 409,
  },
  'GET /results/:result': read,

  'GET /reports': { query: ({ design }) => `?designId=${design}`, own: 200, foreign: 200, foreignSays: '"items":[]' },
  'POST /reports': {
    body: ({ design, revision }) => ({ id: newId(), designId: design, revisionId: revision }),
    own: 409,
  },
  'GET /reports/:report/pdf': read,
  'GET /reports/:report/csv': read,
  'GET /own-reports/:report/pdf': read,
  'GET /progress': readAll,

  'GET /ledger/entries': {
    query: ({ test }) => `?subjectId=${test}`,
    own: 200,
    foreign: 200,
    foreignSays: '"items":[]',
  },
  'POST /ledger/verify': { body: () => ({}), own: 200, ...nothing },
  'GET /ledger/head': readAll,
  'GET /ledger/head-prints': readAll,
  'POST /ledger/head-prints': { body: () => ({ id: newId(), place: 'Safe' }), own: 201, ...nothing },
  'GET /validation': readAll,

  // Last: a new revision opens the design again.
  'POST /designs/:design/revisions': { body: () => ({ id: newId(), reason: 'Tolerance narrowed' }), own: [201, 409] },
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
