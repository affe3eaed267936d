import { api, of } from '../../statements/statement.ts'
import { row, type Write } from './write.ts'

export const benchWrites: readonly Write[] = [
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
