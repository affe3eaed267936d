import { newId } from '../../apps/api/src/platform/uuid.ts'
import { nothing, now, read, readAll, stale, once, time, signature, type RouteCase } from './route-case.ts'

/** Routes from a design to its report, and what stands beside them; in the order in which they are asked. */
export const designCases: Readonly<Record<string, RouteCase>> = {
  'GET /projects/:project/specifications': read,
  // One stands already: whoever has not seen it is told.
  'POST /projects/:project/specifications': {
    body: ({ specification }) => ({ id: newId(), specificationId: specification, after: null }),
    own: 409,
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
  'POST /designs/:design/gradations': {
    body: () => ({
      id: newId(),
      sieves: [{ size: '4.75', passing: '94' }],
      madeBy: 'entered',
      method: 'Sieving',
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
  'POST /designs/:design/material-tests': {
    ...once(),
    body: () => ({ methodKey: 'classification-compatibility', replicates: 1 }),
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
  'GET /designs/:design/estimates': read,
  'GET /designs/:design/range': read,
  'GET /designs/:design/panel-tests': read,
  'GET /designs/:design/replicates': read,
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
  'GET /notices': readAll,
  // A notice is one person's: to everybody else there is none (features/notices).
  'POST /notices/:notice/seen': { own: 404 },
  'GET /bench/queue': readAll,
  'GET /bench/casting/:design': read,
  'POST /bench/put-in-lists': {
    // The design of this laboratory is tested: nothing of it is to be put in any more.
    body: ({ design, test }) => ({
      id: newId(),
      designId: design,
      methodKey: 'wet-track-abrasion-1h',
      instrumentId: null,
      runMinutes: 15,
      rows: [{ testId: test, putInAt: null, startAt: now() }],
      supersedes: null,
    }),
    own: 404,
  },
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
  // Entered by the technician, and too long ago or followed by an act by now.
  'POST /readings/:reading/withdrawal': {
    body: () => ({ id: newId(), time: time() }),
    own: [409, 422],
  },
  // Of a test its act is named, and here it is none.
  'POST /tests/:test/acts/:act/corrections': {
    body: () => ({ id: newId(), reason: 'Read off the wrong clock', time: time() }),
    own: 404,
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
  'POST /report-previews': {
    body: ({ design, revision }) => ({
      id: newId(),
      designId: design,
      revisionId: revision,
      reason: `Copy for ${newId()}`,
    }),
    own: 201,
  },
  'GET /report-previews/:preview': read,
  'GET /report-previews/:preview/pdf': read,
  'GET /designs/:design/draft-report': { own: 409 },
  // Dated the day before: it is out of date.
  'POST /reports': { body: ({ preview }) => ({ id: newId(), previewId: preview }), own: 412 },
  'GET /reports/:report/pdf': read,
  'GET /reports/:report/content': read,
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
