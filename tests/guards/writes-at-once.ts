import { benchWrites } from './writes-at-once/bench.ts'
import { designWrites } from './writes-at-once/designs.ts'
import { materialWrites } from './writes-at-once/materials.ts'
import { peopleWrites } from './writes-at-once/people.ts'
import type { Write } from './writes-at-once/write.ts'

export const writesAtOnce: readonly Write[] = [...peopleWrites, ...designWrites, ...materialWrites, ...benchWrites]

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
