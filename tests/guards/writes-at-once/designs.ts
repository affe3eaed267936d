import { api } from '../../statements/statement.ts'
import { edits, oneName, row, uniqueName, type Write } from './write.ts'

export const designWrites: readonly Write[] = [
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
]
