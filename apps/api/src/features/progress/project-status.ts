/** The state of the design that is least far along; null before there is one. */
export type LeastFar = 'draft' | 'in-work' | 'sent-back' | 'in-review' | 'approved' | null

type Status = { readonly status: string; readonly next: string }

const testing = 'Tests under way'
const received: Status = { status: 'Received', next: 'The laboratory plans the tests.' }
const statuses: Readonly<Record<NonNullable<LeastFar> | 'reported', Status>> = {
  draft: { status: 'Being planned', next: 'Specimens are made and tested.' },
  'in-work': { status: testing, next: 'An engineer reviews the tests as soon as all are done.' },
  'sent-back': { status: testing, next: 'Some work is looked at again before the review.' },
  'in-review': { status: 'In review', next: 'An engineer checks the results and approves the report.' },
  approved: { status: 'Approved', next: 'The report is issued.' },
  reported: {
    status: 'Report issued',
    next: 'Nothing more is planned. Ask the laboratory if you need another test.',
  },
}

/** Nothing is left to wait for at the bench, and nobody has recommended yet. */
const testsDone: Status = { status: testing, next: 'All tests are done: an engineer reviews them.' }

/** The words for a project's status: all there are. */
export const statusWords: readonly string[] = [
  ...new Set([received, ...Object.values(statuses)].map(({ status }) => status)),
]

/**
 * How far a project is, in words for its client. Nobody sets a status: it follows from the state of the designs and from
 * whether a report is issued.
 */
export function projectStatus(leastFar: LeastFar, reported: boolean, allDone = false): Status {
  if (leastFar === null) return received
  if (leastFar === 'in-work' && allDone) return testsDone
  return statuses[leastFar === 'approved' && reported ? 'reported' : leastFar]
}
