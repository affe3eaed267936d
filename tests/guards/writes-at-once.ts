import { api, of } from '../statements/statement.ts'

/** A way to write, what it looks at before it writes, what keeps that from changing meanwhile, and the tests that show it. */
type Write = {
  /** Verb and address of a route, or the command or round that writes without one. */
  readonly write: string
  readonly reads: string
  readonly heldBy: string
  readonly tests: ReturnType<typeof api>
}
const row = (write: string, reads: string, heldBy: string, tests: Write['tests']): Write => ({
  ...{ write, reads, heldBy, tests },
})

const edits = of(
  'apps/api/src/platform/edit.test.ts',
  'at once with another one: one stands, and the other is told what does',
  'sent twice at once is one edit, and sent again after a lost answer too',
)
const oneName = 'the id; then whether the name or code is free'
const uniqueName = 'unique index, read again by `createOnce`'
const takingBack = '%s that found the instrument in service waits for who takes it back, and is refused'

export const writesAtOnce: readonly Write[] = [
  // People, accounts, devices
  row(
    'POST /first-run',
    'whether a laboratory stands',
    'advisory lock',
    api('first-run/first-run', 'sent twice at the same moment makes one laboratory, and no account without one'),
  ),
  row(
    'POST /session',
    'the password',
    'read again once the session stands; attempts counted in one statement',
    api(
      'session/session',
      'counts attempts sent at the same moment',
      'set while somebody signs in with the old one ends that sign-in with the others',
    ),
  ),
  row(
    'POST /session/second-factor',
    'the half sign-in, the secret',
    'the half sign-in is consumed once, and ends with a new password',
    api('session/session', 'ends a sign-in that waits for its second factor'),
  ),
  row(
    'POST /account/password',
    'the present password',
    'ways to a session end before the sessions',
    api('session/session', 'set while somebody signs in with the old one ends that sign-in with the others'),
  ),
  row(
    'POST /account/second-factor',
    'whether there is one',
    'advisory lock of the account',
    api('session/session', 'begun twice at once is one, whose secret is the one shown last'),
  ),
  row(
    'POST /account/second-factor/confirm',
    'the secret',
    'advisory lock of the account',
    api('session/session', 'begun twice at once is one, whose secret is the one shown last'),
  ),
  row(
    'POST /account/second-factor/end',
    'whether there is one',
    'advisory lock of the account',
    api('session/session', 'begun twice at once is one, whose secret is the one shown last'),
  ),
  row(
    'POST /device/switch',
    'the PIN, the way by PIN, the session before',
    'row of the way shared, session before deleted, in one transaction',
    api(
      'session/signed-in',
      'while somebody changes person on it ends the session that takes its place too',
      'leaves nothing to who changes person a moment later: neither the way by PIN nor the session before is there',
    ),
  ),
  row(
    'POST /session/unlock',
    'the PIN',
    'attempts counted in one statement before it is looked at',
    api('session/device', 'of many wrong PINs at once no more than five are looked at'),
  ),
  row(
    'POST /signed-in/:session/end',
    'the session, who may come back on its device',
    'advisory lock of the session; ways end before sessions',
    api(
      'session/signed-in',
      'of two orders at once one stands, and both find it done',
      'while somebody changes person on it ends the session that takes its place too',
    ),
  ),
  row('PATCH /people/:person', 'version, managers left', 'row of the laboratory', [
    ...edits,
    ...api('people/people', 'keep a manager when the last two leave at the same moment'),
  ]),
  row(
    'POST /invitations',
    'the id',
    'primary key, read again by `createOnce`',
    api('people/people', 'is one invitation when its request comes twice at the same moment'),
  ),
  row(
    'DELETE /invitations/:invitation',
    'whether it is open',
    'update of what is open alone',
    api('people/people', 'accepted and taken back at once is one of the two: %s'),
  ),
  row(
    'POST /invitations/accept',
    'whether it is open, whether the address has an account',
    'unique address and membership; update of what is open alone',
    api(
      'people/people',
      'accepted twice at the same moment makes one account and one membership',
      'accepted and taken back at once is one of the two: %s',
    ),
  ),
  row(
    'POST /authorisations',
    'the person',
    'row of the person, without holding up rows that name them',
    api('people/authorisations', 'of two managers who authorise one another at once both stand'),
  ),
  row(
    'POST /authorisations/:authorisation/corrections',
    'which one stands',
    'row of the person',
    api('people/authorisations', 'are corrected once: of two at the same moment the second is told of the first'),
  ),
  row('PATCH /', 'version', 'update of that version alone', [
    ...edits,
    ...api('laboratory/laboratory', 'changed by two at the same moment keeps one change, and tells the other'),
  ]),
  row(
    'POST /hand-overs',
    'what is begun or due',
    'advisory lock of whoever offers',
    api('hand-overs/hand-overs', 'of two shown at once through two servers the later one holds'),
  ),
  row(
    'POST /hand-overs/take',
    'the code, whose the tests are',
    'advisory lock of whoever offers, then the tests',
    api(
      'hand-overs/hand-overs',
      'of two who scan at once on two servers one gets it',
      'sent twice at once by one press is taken once, and both are answered alike',
      'what a manager gives to somebody else at the same moment is theirs, and is reported to who takes',
    ),
  ),
  row(
    'POST /assignments',
    'state and holder of the tests',
    'the tests, by id',
    api(
      'schedule/schedule',
      'two managers giving the same tests at once through two servers: both acts stand, one after the other',
    ),
  ),
  row(
    'POST /notices/:notice/seen',
    'whether it was seen',
    'primary key',
    api(
      'notices/notices',
      'seen is a row of its own; the notice stays, and said twice at once on two servers it is said once',
    ),
  ),
  // Projects, clients, specifications
  row(
    'POST /clients',
    oneName,
    uniqueName,
    api('clients/clients', 'two people entering one name at once: one client stands'),
  ),
  row(
    'POST /projects',
    'the id, the next number',
    'counter row, taken last',
    api('projects/projects', 'projects made at once get numbers of their own'),
  ),
  row('PATCH /projects/:project', 'version', 'update of that version alone', [
    ...edits,
    ...api('projects/projects', 'two people editing at once: one gets through'),
  ]),
  row(
    'POST /projects/:project/specifications',
    'what stands, whether the chosen one was withdrawn',
    'row of the project; lock of the key, shared',
    api(
      'project-specifications/project-specifications',
      'is set by one of two who set it at once; the other is told what stands',
    ),
  ),
  row(
    'POST /projects/:project/expected-days',
    'what stands',
    'row of the project',
    api(
      'expected-days/expected-days',
      'is set by one of two who set it at once; the other is told what stands',
      'sent twice at once through two servers is set once, and both are answered alike',
    ),
  ),
  row(
    'POST /own-questions',
    'the id',
    'primary key, read again',
    api('questions/questions', 'is kept once when it is sent twice at once, and another one under its id is refused'),
  ),
  row(
    'POST /questions/:question/answers',
    'the question; further answers add to it',
    'primary key',
    api(
      'questions/questions',
      'is kept once when it is sent twice at once, and another one under its id is refused',
      'answered by two at once has both answers, and waits no more',
    ),
  ),
  row(
    'POST /specifications',
    'the next revision of the key',
    'counter row',
    api(
      'specifications/specifications',
      'adoptions made at once are revisions of their own; the same one again is one',
    ),
  ),
  row(
    'POST /specifications/own',
    'the next revision of the key',
    'counter row',
    api('specifications/own-specifications', 'the same request twice at once is one; it stands in the ledger'),
  ),
  row(
    'POST /specifications/:specification/versions',
    'the newest of the line',
    'advisory lock of the key',
    api(
      'specifications/own-specifications',
      'two who edit at once: one is told, with what stands and what was sent',
      'edited and withdrawn at once: one of the two stands',
    ),
  ),
  row(
    'POST /specifications/:specification/withdraw',
    'the newest of the line',
    'advisory lock of the key, shared by who pins',
    api(
      'specifications/own-specifications',
      'edited and withdrawn at once: one of the two stands',
      'withdrawn while a design pins it: %s',
    ),
  ),
  row(
    'POST /methods/:method/editions',
    'whether the copied one was superseded',
    'unique index of what it supersedes',
    api(
      'methods/methods',
      'two people changing one edition at once through two servers: one stands, the other is told',
      'the same request twice at once is one edition',
    ),
  ),
  // Designs
  row(
    'POST /designs',
    'what the project stands on, whether the specification was withdrawn',
    'row of the project, shared; lock of the key, shared',
    api(
      'project-specifications/project-specifications',
      'and the project set at once follow one another: the design has what stood, or what stands',
    ),
  ),
  row('PATCH /designs/:design', 'version, tests planned', 'row of the design', [
    ...edits,
    ...api('designs/designs', 'an edit starts from the version that was read; two at once: one gets through'),
    ...api(
      'designs/material-lock',
      'a plan and another emulsion at once: the test is made of what the design says afterwards',
    ),
  ]),
  row(
    'POST /designs/:design/entered-results',
    'the value that stands',
    'row of the design',
    api('designs/entered-results', 'two people entering or replacing a value at once through two servers: one stands'),
  ),
  row('POST /designs/:design/panel-results', 'the value that stands, the state', 'row of the design', [
    ...api(
      'designs/panel-results',
      'is replaced by a further one with a reason; of two at once through two servers one stands',
    ),
    ...api('review/signing-at-once', 'a value entered while it is approved is signed, or is not taken: %s'),
  ]),
  row(
    'POST /designs/:design/gradations',
    'the one that stands',
    'row of the design',
    api(
      'designs/gradations',
      'it is replaced with a reason, the old one named; of two at once through two servers one stands',
    ),
  ),
  row('POST /designs/:design/plan', 'contents and replicates that stand, the state', 'row of the design; request key', [
    ...api(
      'designs/design-plan',
      'the same plan sent twice under one key, at once and through two servers, is planned once',
      'two plans at once follow one another: no code and no replicate stands twice',
    ),
    ...api('review/signing-at-once', 'nothing is planned into what is in review: %s'),
  ]),
  row(
    'POST /designs/:design/material-tests',
    'replicates that stand',
    'row of the design; request key',
    api('designs/material-tests', 'two plans at once number on from each other'),
  ),
  row(
    'POST /designs/:design/revisions',
    'the state of the newest',
    'row of the design',
    api(
      'review/signing-at-once',
      'a new revision asked for twice at once through two servers is one, and both are answered alike',
    ),
  ),
  row(
    'POST /designs/:design/trial-cups',
    'the next number, the cup that stands',
    'row of the design',
    api('trials/trials', 'two at once through two servers get two numbers; of two corrections at once one stands'),
  ),
  row(
    'POST /designs/:design/trial-base',
    'the cup, whether a batch is begun',
    'row of the design, then the batches',
    api(
      'trials/trials',
      'chosen by two at once: shares and chosen cup are those of whoever came last, whenever they began',
      'and a first weighing at the same moment follow one another: shares never change under a batch',
    ),
  ),
  row(
    'POST /designs/:design/recommendations',
    'what stands, the range',
    'row of the design',
    api('recommendations/recommendations', 'stands once when two engineers recommend at the same moment'),
  ),
  row('POST /designs/:design/acknowledgements', 'the points, the word that stands', 'row of the design', [
    ...api('review/review', 'keeps one word on a point that two acknowledge, and the other word behind it'),
    ...api(
      'review/signing-at-once',
      'a word on a point, sent again behind somebody else’s further word, is said once and changes nothing',
    ),
  ]),
  row(
    'POST /designs/:design/check',
    'the work as it stands',
    'row of the design, then its tests',
    api(
      'review/signing-at-once',
      'two checks of the same work at once are one',
      'a check of work that is corrected at once is of what was shown, or is not given',
    ),
  ),
  row('POST /designs/:design/approve', 'all that is signed', 'row of the design, then its tests', [
    ...api(
      'review/review',
      'approves once',
      'never approves over a correction unseen: either it is in the signed content, or told as changed since',
    ),
    ...api('review/signing-at-once', 'what is approved and sent back at once is one of the two: %s'),
  ]),
  row(
    'POST /designs/:design/send-back',
    'the state',
    'row of the design',
    api(
      'review/signing-at-once',
      'what is approved and sent back at once is one of the two: %s',
      'sent back twice at once by one press is sent back once, and both are answered alike',
    ),
  ),
  row(
    'POST /report-previews',
    'a preview that is ready',
    'row of the design',
    api(
      'reports/report-previews',
      'of the same is the one that is ready, asked again or by two at once through two servers',
    ),
  ),
  row(
    'POST /reports',
    'the preview against what stands, the number',
    'row of the design; counter row',
    api(
      'reports/reports',
      'happens once when two issue the first report of a design at the same moment',
      'have no gap when reports of several designs are issued at the same moment through two servers',
    ),
  ),
  // Materials, custody, places
  row(
    'POST /materials',
    'the next code',
    'counter row, taken last',
    api('materials/materials', 'samples entered at once through two servers get codes of their own'),
  ),
  row('POST /items/:item/custody', 'who has it, what is left', 'row of the item', [
    ...api(
      'custody/custody',
      'two who take it over at once through two servers: one has it, the other is told',
      'two who first take a specimen at once: it has one first custodian',
    ),
    ...api('custody/draws', 'a weighing and a split at once: what is left knows of both, whichever was first'),
  ]),
  row(
    'POST /items/:item/receipt-corrections',
    'the receipt that stands, what left the sample',
    'row of the item',
    api(
      'custody/receipt-correction',
      'two corrections at once: one stands, the other is told; a split at once is held against what stands',
    ),
  ),
  row(
    'POST /items/:item/label-prints',
    'the request key',
    'primary key of the request',
    api('labels/labels', 'sent twice by one press, also at once, are one print'),
  ),
  row(
    'POST /places',
    oneName,
    uniqueName,
    api('custody/places', 'made at once through two servers a name stands once; one place sent twice at once is one'),
  ),
  row(
    'POST /attachments',
    'the id',
    'primary key, read again by `createOnce`',
    api('attachments/attachments', 'sent twice at once through two servers is one file'),
  ),
  // Instruments
  row(
    'POST /instruments',
    oneName,
    uniqueName,
    api(
      'instruments/instruments',
      'entered at once through two servers under one code, or twice by one press, stands once',
    ),
  ),
  row('PATCH /instruments/:instrument', 'version', 'row of the instrument', edits),
  row(
    'POST /instruments/:instrument/factors',
    'the factor that stands',
    'row of the instrument',
    api('instruments/instruments', 'two people entering or replacing a factor at once through two servers: one stands'),
  ),
  row(
    'POST /instruments/:instrument/calibrations',
    'whether it was taken back; every calibration stands',
    'trigger `refuse_withdrawn`',
    [
      ...api(
        'instruments/instruments',
        'two calibrations entered at once both stand, and the later one counts; one sent twice at once is one',
      ),
      ...api('instruments/instrument-taken-back', takingBack),
    ],
  ),
  row(
    'POST /instruments/:instrument/parts',
    'the entry that stands, the lot',
    'row of the instrument; unique lot',
    api(
      'instruments/part-fittings',
      'entered in error is superseded with the reason; of two corrections at once one stands',
      'two new lots at once both stand in the record, and one is on',
      'a lot named for the first time on two machines at once is one lot',
    ),
  ),
  row(
    'POST /instruments/:instrument/checks',
    'the entry that stands',
    'row of the instrument',
    api('instruments/instrument-checks', 'of two corrections of one entry at once one stands, the other is told'),
  ),
  row(
    'POST /instruments/:instrument/lines',
    'the one that stands',
    'row of the instrument',
    api(
      'instruments/instrument-lines',
      'of two at once one stands and the other is told, for the first one as for a change',
    ),
  ),
  row(
    'POST /instrument-imports',
    'codes that are taken',
    uniqueName,
    api(
      'instruments/instrument-imports',
      'two people at once through two servers: one import of the same codes stands, and one taking back',
    ),
  ),
  row(
    'POST /instrument-imports/:import/withdrawal',
    'whether any was used',
    'rows of its instruments; trigger `refuse_withdrawn`',
    [
      ...api(
        'instruments/instrument-imports',
        'one taking back sent twice at once through two servers happens once, and both are answered alike',
      ),
      ...api(
        'instruments/instrument-taken-back',
        takingBack,
        'a weighing and a taking back at once through two servers: one of the two stands',
      ),
    ],
  ),
  row(
    'POST /instruments/:instrument/conditions',
    'values that are stored, deviations that stand',
    'advisory lock of the log, then of each deviation',
    api(
      'bench/conditions',
      'does not grow under somebody who decides at the same moment',
      'keeps a value once when it arrives twice at once, and refuses another under its id',
    ),
  ),
  row(
    'POST /instruments/:instrument/conditions/:value/corrections',
    'the value that stands',
    'advisory lock of the log',
    api('bench/condition-judged-anew', 'is corrected once of two at once, and by nobody where a logger sent it'),
  ),
  row(
    'POST /instruments/:instrument/keys',
    'the key that stands',
    'advisory lock of the log',
    api(
      'bench/conditions',
      'is made by a manager, and of two made at once one stands',
      'that is ended while a value is on its way keeps that value no more',
    ),
  ),
  row(
    'POST /conditions',
    'the key, values that are stored',
    'advisory lock of the log',
    api(
      'bench/conditions',
      'opens one deviation when two loggers post at once',
      'that is ended while a value is on its way keeps that value no more',
    ),
  ),
  // Bench
  row(
    'POST /tests/:test/readings',
    'the slot, what the result rests on',
    'the test',
    api(
      'bench/bench',
      'keeps one of two first readings of a slot and shows the other both values',
      'never ends with all of a batch weighed and no result',
    ),
  ),
  row(
    'POST /readings/:reading/corrections',
    'the reading that stands',
    'the test',
    api('bench/bench', 'lets the second of two correctors see what the first made of it'),
  ),
  row(
    'POST /readings/:reading/withdrawal',
    'the reading that stands, acts after it',
    'the test',
    api(
      'bench/withdrawals',
      'two withdrawals are one: the other is told by whom',
      'of a withdrawal and a correction one stands, and the other is told',
    ),
  ),
  row(
    'POST /step-events',
    'what was done, the machine of the curve',
    'the tests; update of a curve without machine alone',
    api(
      'bench/bench',
      'confirms an act once when two confirm it',
      'says of one of two first runs on two machines that the curve’s machine is the other',
    ),
  ),
  row(
    'POST /tests/:test/acts/:act/corrections',
    'the act that stands',
    'the test, then the logs',
    api(
      'bench/act-corrections',
      'is put right once of two at once, and the same message twice is one',
      'moved while it is decided is decided as it stood, or not at all',
    ),
  ),
  row(
    'POST /tests/:test/void',
    'the state of specimen and batch',
    'both tests, by id',
    api('bench/ending-at-once', 'a batch and its specimen lost at once are both lost, each once'),
  ),
  row(
    'POST /tests/:test/replace',
    'the states, whose place the spare took',
    'both tests, by id',
    api(
      'bench/ending-at-once',
      'one spare asked for by two lost specimens stands in the place of one',
      'one lost specimen given two spares has one in its place',
    ),
  ),
  row(
    'POST /tests/:test/observations',
    'the observation that stands',
    'the test',
    api(
      'bench/observations',
      'sent twice at the same moment through two servers is one',
      'entered in error is superseded with the reason; of two corrections at once one stands',
    ),
  ),
  row(
    'POST /deviations/:deviation/decisions',
    'whether it is decided, what it says, what waits',
    'advisory lock of the deviation, then load, then tests',
    [
      ...api(
        'bench/bench',
        'opens a deviation when a window is missed, and counts the specimen until somebody decides',
      ),
      ...api(
        'bench/holds',
        'is released once, exactly as shown: of two at once one stands, and a reading that came between is shown first',
      ),
      ...api(
        'bench/ending-at-once',
        'a specimen that a decision repeats with a spare planned before it, while somebody puts that spare in its place',
      ),
    ],
  ),
  row(
    'POST /bench/put-in-lists',
    'the list that stands, runs settled elsewhere',
    'row of the laboratory',
    api(
      'bench/put-in-settle',
      'two people settling at once through two servers: one list stands, the other person is told of it',
      'two lists of two designs for one machine at once: their runs do not meet',
    ),
  ),
  row(
    'POST /loads',
    'the load under this id',
    'primary key',
    api(
      'bench/loads',
      'is opened by what is put in, and sent twice at once it is one load, one act each, and one temperature',
    ),
  ),
  row(
    'POST /loads/:load/in',
    'what stands in it, what was done',
    'advisory lock of the load, then the tests',
    api(
      'bench/loads',
      'is opened by what is put in, and sent twice at once it is one load, one act each, and one temperature',
      'put in by two people at once takes each specimen in once',
    ),
  ),
  row(
    'POST /loads/:load/out',
    'what stands in it',
    'advisory lock of the load, then the tests',
    api(
      'bench/loads',
      'is opened by what is put in, and sent twice at once it is one load, one act each, and one temperature',
    ),
  ),
  row(
    'POST /loads/:load/readings',
    'the reading that stands, check specimens',
    'advisory lock of the load',
    api(
      'bench/loads',
      'is judged by what stands: a slip put right keeps its time, the first stays on record, of two corrections one stands',
    ),
  ),
  // Wall, ledger
  row(
    'POST /wall/pairing',
    'the code, the screen',
    'advisory lock of the screen',
    api(
      'wall/wall',
      'typed on two browsers at the same moment makes one of them the screen',
      'typed while another is made holds, or holds no more: %s',
    ),
  ),
  row(
    'POST /wall-screens/:screen/codes',
    'whether it was ended',
    'advisory lock of the screen',
    api('wall/wall', 'typed while another is made holds, or holds no more: %s'),
  ),
  row(
    'POST /wall-screens/:screen/end',
    'whether it was ended',
    'advisory lock of the screen',
    api(
      'wall/wall',
      'ended again is what it was, also by two at the same moment',
      'typed while the screen is ended leaves no browser that reads on',
    ),
  ),
  row(
    'POST /ledger/head-prints',
    'the id, the head',
    'primary key, read again',
    api('ledger/ledger', 'whose head is printed twice at once by one press is printed once'),
  ),
  // Without a route
  row(
    'mail round',
    'windows told of, mails sent',
    'advisory lock of the look, of each mail',
    api(
      'mail/mail',
      'is mailed once to its person, within the minutes asked for; many at once are one mail',
      'by two servers at once sends a mail once',
    ),
  ),
  row(
    'sealer',
    'entries that wait, the head',
    'advisory lock of the chain',
    of(
      'packages/database/src/schema-ledger.test.ts',
      'two sealers and four writers at once: no fork, no entry left or sealed twice',
    ),
  ),
  row(
    'start: built-in editions',
    'editions that stand',
    'unique index',
    api('methods/methods', 'a newer built-in edition comes in beside what a laboratory decided, and only once'),
  ),
  row(
    'start: migrations',
    'which were applied',
    'advisory lock',
    of('packages/database/src/migrate.test.ts', 'two at once apply each migration once'),
  ),
  row(
    'projections:rebuild, bench',
    'every reading and act',
    'the tests',
    of(
      'apps/api/src/cli/maintenance.test.ts',
      'are rebuilt while the bench goes on: a correction at the same moment stands in them',
    ),
  ),
  row(
    'projections:rebuild, custody',
    'every event',
    'the items',
    api('custody/standing-check', 'rebuilt while somebody takes it over, it has the one who took it'),
  ),
  row(
    'reset-password',
    'the account',
    'as POST /account/password',
    api('session/session', 'set while somebody signs in with the old one ends that sign-in with the others'),
  ),
]

/** Routes that write nothing, or what they write rests on nothing that could change: each with why. */
export const withoutReading: Readonly<Record<string, string>> = {
  'POST /designs/:design/demand': 'answers only',
  'POST /designs/:design/what-if': 'answers only',
  'POST /schedule/assignment-check': 'answers only',
  'POST /instrument-imports/preview': 'answers only',
  'POST /hand-overs/look-up': 'answers only',
  'POST /invitations/look-up': 'answers only',
  'POST /ledger/verify': 'answers only',
  'PUT /mail/wishes': 'appends; what was said last holds',
  'POST /wall-screens': 'appends under an id of its own; a name may stand twice',
  'DELETE /session': 'ends what is one’s own',
  'POST /session/sign-out-everywhere': 'ends what is one’s own',
  'DELETE /account/sessions/:session': 'ends what is one’s own',
  'POST /account/pin': 'one statement that replaces, after the password',
  'POST /account/pin/end': 'one statement that deletes, after the password',
}
