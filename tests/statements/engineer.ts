import { api, journeys, of, trade, web, type Statement } from './statement.ts'

const engineer = 'statements-engineer'

/** What an engineer relies on: curves, workings, comparison, review, signature and report. */
export const engineerStatements: readonly Statement[] = [
  {
    id: 'E1',
    says: 'One page holds what is asked, the decisive numbers, what stands out, and the acts.',
    tests: journeys(
      engineer,
      'one look holds what is asked, the decisive numbers with limits and margins, what is missing, and the acts',
    ),
  },
  {
    id: 'E2',
    says: 'Approving is off until every point is closed, and says why.',
    tests: [
      ...journeys(engineer, 'approving is off until every point has its word and the work is checked, and says why'),
      ...api('review/review', 'blocks on a specimen that is not finished'),
    ],
  },
  {
    id: 'E3',
    says: 'Every derived number opens its working, down to its readings, at full precision.',
    tests: [
      ...journeys(
        engineer,
        'a number opens its working: links to its readings, how, source, all digits, and how it was rounded',
      ),
      ...trade('procedure/calculation-checker', 'whatever the builder computes, the checker finds digit for digit'),
    ],
  },
  {
    id: 'E4',
    says: 'Rounding is shown, and whether a limit was compared rounded or not.',
    tests: [
      ...journeys(
        engineer,
        'a number opens its working: links to its readings, how, source, all digits, and how it was rounded',
      ),
      ...web('components/calculation-reported', 'what is cut is said with the step to which it is cut, halves to even'),
      ...trade(
        'specification/judge',
        'the rounding method turns a value just over a limit into a pass, and the rule is said',
      ),
      ...api('reports/render/render-report', 'beside the range the first page says how its ends were compared'),
    ],
  },
  {
    id: 'E5',
    says: 'Pass, fail and undecided are words with an icon and a margin in units.',
    tests: [
      ...journeys(engineer, 'a verdict is a word with its icon, and a margin in the unit of the limit'),
      ...trade('specification/judge', 'verdict and margin agree for every value'),
    ],
  },
  {
    id: 'E6',
    says: 'What does not count stays in view with reason and person; both results can be seen.',
    tests: [
      ...journeys(
        engineer,
        'what does not count stays in chart and table, crossed out, with reason and person, and both means are there',
      ),
      ...api(
        'reports/render/render-report',
        'what does not count, with reason and person, and both means of its content',
      ),
    ],
  },
  {
    id: 'E7',
    says: 'n, mean, spread and the kind of scatter are named wherever they stand.',
    tests: journeys(engineer, 'n, mean and the kind of scatter are named where they stand'),
  },
  {
    id: 'E8',
    says: 'Charts name axes with units, breaks and limits; curves differ by dash and mark.',
    tests: [
      ...journeys(
        engineer,
        'charts name their axes with units, a broken axis and each limit, and curves differ without colour',
      ),
      ...of(
        'packages/contract/src/chart-model.test.ts',
        'two series differ by mark and dash',
        'an axis that does not begin at zero says where it begins',
      ),
    ],
  },
  {
    id: 'E9',
    says: 'No number and no line stands outside the contents tested.',
    tests: [
      ...trade(
        'design/acceptable-range',
        'whatever is measured, an end lies inside the tested contents or on the band’s edge, and its working holds',
      ),
      ...trade('design/curve-value', 'outside the contents tested nothing is said'),
      ...journeys(engineer, 'no line is drawn beyond the contents tested'),
    ],
  },
  {
    id: 'E10',
    says: 'Details of a point come by key and touch too, and stay until dismissed.',
    tests: journeys(engineer, 'points are reached by keyboard and by touch; what they say stays until it is dismissed'),
  },
  {
    id: 'E11',
    says: 'Two designs or revisions compare side by side, differences in words.',
    tests: [
      ...journeys(engineer, 'two revisions stand side by side, and what differs is said in words'),
      ...of(
        'packages/contract/src/design-comparison.test.ts',
        'that are alike differ in no row, and every part is there',
      ),
    ],
  },
  {
    id: 'E12',
    says: 'A signature asks for the password, shows exactly what is signed, and is given once.',
    tests: [
      ...journeys(engineer, 'a signature asks for the password, and shows what it means and exactly what is signed'),
      ...api('session/session', 'signing asks for the password again'),
      ...api('review/review', 'approves once'),
    ],
  },
  {
    id: 'E13',
    says: 'Sending back needs a reason and a point; the receiver’s first screen shows both.',
    tests: [
      ...journeys(
        engineer,
        'what is sent back needs a reason and a named point, and stands on the engineer’s first screen',
      ),
      ...api(
        'review/sending-back',
        'names points with a reason, opens the revision again, and a further recommendation brings it back',
      ),
    ],
  },
  {
    id: 'E14',
    says: 'Each chart has the sentence of its message and its numbers as a table.',
    tests: journeys(engineer, 'each chart has the sentence of its message, and its numbers as a table'),
  },
  {
    id: 'E15',
    says: 'What if stands apart, not recorded, and reaches no report.',
    tests: [
      ...journeys(
        engineer,
        'what if stands apart, says that it is not recorded, and leaves review and paper as they were',
      ),
      ...api(
        'range/what-if',
        'is kept nowhere: no row, no ledger entry, and what would be signed and reported stays as it was',
      ),
    ],
  },
  {
    id: 'E16',
    says: 'The preview of a report is the released file, byte for byte.',
    tests: api('reports/report-previews', 'is the file that is released, byte for byte'),
  },
  {
    id: 'E17',
    says: 'After a correction it is said what changed, by how much, and what it undoes.',
    tests: [
      ...api(
        'review/approved',
        'names each figure that stands otherwise than signed and by how much, and leaves the approval',
      ),
      ...api('review/review', 'counts a check no more when the work changed after it'),
    ],
  },
]
