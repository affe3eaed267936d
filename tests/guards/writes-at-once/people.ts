import { api } from '../../statements/statement.ts'
import { edits, row, type Write } from './write.ts'

export const peopleWrites: readonly Write[] = [
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
]
