import { panelResultWords } from '@curebook/contract/panel-result-words'
import { observationText } from '@curebook/contract/observation-words'
import type { RangeView } from '@curebook/contract/range'
import type { ReviewPoint } from '@curebook/contract/review'
import type { SpecimenRow } from '@curebook/contract/designs'
import { countingSpecimens, type WorkRecord } from '#features/bench/work-record.service'
import { findingsOf, type LateFinding } from './late-findings.ts'
import { uncalibratedPoints } from './uncalibrated-points.ts'
import type { OddFinding } from './odd-points.ts'
import type { PutRight } from './put-right.ts'
import { partChanges } from './part-changes.ts'

export type FoundPoint = Omit<ReviewPoint, 'acknowledged' | 'effect'> & { readonly effect?: string }

type Replicates = {
  readonly odd: readonly OddFinding[]
  readonly scatter: readonly FoundPoint[]
  readonly few: readonly FoundPoint[]
}

/**
 * What has to be seen before signing, in the order in which a reader looks: unfinished and undecided things first (they
 * block), then late findings, voids, corrections, what was taken back, what looks odd, refused results, small n, what was not tested, what the range says of itself.
 */
export function reviewPoints(
  work: WorkRecord,
  range: RangeView,
  findings: readonly LateFinding[],
  { odd, scatter, few }: Replicates,
  putRight: readonly PutRight[],
): readonly FoundPoint[] {
  const byTest = new Map(
    work.specimens.flatMap(
      (specimen) =>
        [
          [specimen.testId, specimen],
          [specimen.batchTestId, specimen],
        ] as const,
    ),
  )
  return [
    ...unfinished(work),
    ...deviationPoints(work, byTest),
    ...findingPoints(work, findings),
    ...uncalibratedPoints(work),
    ...voidPoints(work),
    ...correctionPoints(work, byTest),
    ...putRightPoints(putRight),
    ...replacedPoints(range),
    ...oddPoints(odd),
    ...scatter,
    ...partChangePoints(work),
    ...observationPoints(work, byTest),
    ...refusedPoints(work, byTest),
    ...outsidePoints(work),
    ...doubtfulPoints(work, byTest),
    ...few,
    ...untestedPoints(range),
    ...gradationPoints(range),
    ...enteredPoints(range),
    ...besidePoints(range),
    ...flagPoints(range),
  ]
}

type ByTest = ReadonlyMap<string, SpecimenRow>
const nameOf = (specimen: SpecimenRow | undefined) =>
  specimen ? `${specimen.label} (${specimen.code}), ${specimen.methodName}` : 'A specimen'

function unfinished(work: WorkRecord): FoundPoint[] {
  return countingSpecimens(work)
    .filter(({ state }) => state !== 'done')
    .map((specimen) => ({
      ...about(specimen),
      key: `unfinished:${specimen.testId}`,
      kind: 'unfinished',
      sentence: `${nameOf(specimen)} is not finished: finish it, or void it with a reason.`,
      blocking: true,
    }))
}

function deviationPoints({ deviations }: WorkRecord, byTest: ByTest): FoundPoint[] {
  return deviations.map(({ id, testId, text, decision }) => ({
    ...about(testId === null ? undefined : byTest.get(testId)),
    testId,
    key: `deviation:${id}`,
    kind: 'deviation',
    sentence: decision
      ? `${text} ${decisionWords[decision.kind]}${decision.by ? ` by ${decision.by.name}` : ''}: ${decision.reason}`
      : `${text} Not decided yet.`,
    blocking: decision === null,
  }))
}
export const decisionWords = {
  accept: 'Accepted',
  void: 'Voided',
  repeat: 'Repeated on a spare',
  release: 'Released',
  exclude: 'Left out',
  close: 'Closed',
} as const

/** Of specimens that count: a void one says in its own point why it does not. */
function findingPoints(work: WorkRecord, findings: readonly LateFinding[]): FoundPoint[] {
  return countingSpecimens(work).flatMap((specimen) =>
    findingsOf(specimen, findings).map(({ id, text }) => ({
      ...about(specimen),
      key: `finding:${id}`,
      kind: 'finding' as const,
      sentence: `${nameOf(specimen)}: ${text}.`,
      blocking: false,
    })),
  )
}

function voidPoints({ specimens }: WorkRecord): FoundPoint[] {
  return specimens
    .filter(({ state }) => state === 'void' || state === 'replaced')
    .map((specimen) => {
      const spare = specimens.find(
        ({ replaces, methodKey }) => replaces === specimen.label && methodKey === specimen.methodKey,
      )
      const place = spare ? ` ${spare.label} (${spare.code}) stands in its place.` : ''
      return {
        ...about(specimen),
        key: `void:${specimen.testId}`,
        kind: 'void',
        sentence: `${nameOf(specimen)} is void: ${specimen.voidReason ?? 'no reason kept'}.${place}`,
        blocking: false,
      }
    })
}

function correctionPoints({ readings, takenBack }: WorkRecord, byTest: ByTest): FoundPoint[] {
  const undone = new Set(takenBack.map(({ readingId }) => readingId))
  return readings.flatMap(({ id, testId, typed, supersedes, by }) =>
    supersedes && !undone.has(supersedes.id)
      ? [
          {
            ...about(byTest.get(testId)),
            key: `correction:${id}`,
            kind: 'correction' as const,
            sentence: `${nameOf(byTest.get(testId))}: ${supersedes.typed} corrected to ${typed} by ${by.name}: ${supersedes.reason}.`,
            blocking: false,
          },
        ]
      : [],
  )
}

function putRightPoints(putRight: readonly PutRight[]): FoundPoint[] {
  return putRight.map(({ key, kind, specimen, line: { from, to, by, reason } }) => ({
    ...about(specimen),
    key,
    kind,
    sentence:
      kind === 'correction'
        ? `${nameOf(specimen)}: ${from} put right to ${to} by ${by}: ${reason}.`
        : `${nameOf(specimen)}: ${from} ${to} by ${by}: ${reason}.`,
    blocking: false,
  }))
}

function oddPoints(odd: readonly OddFinding[]): FoundPoint[] {
  return odd.map(({ key, specimen, text }) => ({
    ...about(specimen),
    key: `odd:${key}`,
    kind: 'odd',
    sentence: `${nameOf(specimen)}: ${text}`,
    blocking: false,
  }))
}

/** Losses before and after a change of hose may differ for that alone: said once a curve and change. */
function partChangePoints(work: WorkRecord): FoundPoint[] {
  return partChanges(work).map(({ key, specimen, sentence }) => ({
    ...about(specimen),
    key: `part-change:${key}`,
    kind: 'part-change',
    sentence: `${specimen.methodName}: ${sentence}.`,
    blocking: false,
  }))
}

/** Of a void specimen too: it may be why. */
function observationPoints({ observations }: WorkRecord, byTest: ByTest): FoundPoint[] {
  return observations.map(({ id, testId, choice, note, by, attachment }) => ({
    ...about(byTest.get(testId)),
    key: `observation:${id}`,
    kind: 'observation',
    sentence: `${nameOf(byTest.get(testId))}: ${observationText({ choice, note })}, seen by ${by.name}${attachment ? `, ${attachment.name}` : ''}.`,
    blocking: false,
  }))
}

function refusedPoints(work: WorkRecord, byTest: ByTest): FoundPoint[] {
  const counting = new Set(countingSpecimens(work).flatMap(({ testId, batchTestId }) => [testId, batchTestId]))
  return work.results
    .filter(({ refusal, testId }) => refusal !== null && counting.has(testId))
    .map(({ id, testId, refusal }) => ({
      ...about(byTest.get(testId)),
      key: `refused:${id}`,
      kind: 'refused-result',
      sentence: `${nameOf(byTest.get(testId))} has no result: ${refusal}`,
      blocking: false,
    }))
}

/** What was read outside the method's limits and used all the same. Results of one test that say the same say it once. */
function outsidePoints(work: WorkRecord): FoundPoint[] {
  const points = countingSpecimens(work).flatMap((specimen) => {
    const own = work.results.filter(
      ({ testId, findings }) => findings && (testId === specimen.testId || testId === specimen.batchTestId),
    )
    const first = own.filter(({ findings }, index) => own.findIndex((one) => one.findings === findings) === index)
    return first.map(({ id, findings }) => ({
      ...about(specimen),
      key: `finding:${id}`,
      kind: 'outside-method' as const,
      sentence: `${nameOf(specimen)}: ${findings}`,
      blocking: false,
    }))
  })
  // Specimens of one batch share what its results say.
  return points.filter(({ key }, index) => points.findIndex((one) => one.key === key) === index)
}

function doubtfulPoints({ doubtful }: WorkRecord, byTest: ByTest): FoundPoint[] {
  return doubtful.map(({ id, testId }) => ({
    ...about(byTest.get(testId)),
    key: `device-clock:${id}`,
    kind: 'device-clock',
    sentence: `${nameOf(byTest.get(testId))}: a window was judged by a device clock that was not together with the server’s.`,
    blocking: false,
  }))
}

function untestedPoints({ panel }: RangeView): FoundPoint[] {
  return panel
    .filter(({ verdict }) => verdict === 'not tested')
    .map(({ key, label }) => ({
      ...about(undefined),
      key: `not-tested:${key}`,
      kind: 'not-tested',
      sentence: `${label}: not tested.`,
      blocking: false,
    }))
}

/** A band that is held and not met, or not known to be. With its entry: a word on one gradation does not settle another. */
function gradationPoints({ gradation, gradationCheck }: RangeView): FoundPoint[] {
  if (gradationCheck === null || gradationCheck.verdict === 'inside') return []
  const { verdict, sentence } = gradationCheck
  return [
    {
      ...about(undefined),
      key: `gradation:${verdict}:${gradation?.id ?? 'none'}`,
      kind: 'gradation',
      sentence: `Gradation of the aggregate: ${sentence.charAt(0).toLowerCase()}${sentence.slice(1)}`,
      blocking: false,
    },
  ]
}

/** Two values of one property: whoever signs has seen the one that does not speak, with its own verdict. */
function besidePoints({ panel }: RangeView): FoundPoint[] {
  return panel.flatMap(({ label, beside, verdict, sentence }) =>
    beside
      ? [
          {
            ...about(undefined),
            key: `beside:${beside.id}:${verdict}`,
            kind: 'entered' as const,
            sentence: `${label}: ${beside.typed} ${beside.unit} is entered beside what was found here: ${panelResultWords(beside)}. ${sentence}`,
            blocking: false,
          },
        ]
      : [],
  )
}

/** Another laboratory or the client answers for these: whoever signs has seen it. What was done here by hand is work, and is checked. */
function enteredPoints({ panel }: RangeView): FoundPoint[] {
  return panel.flatMap(({ label, entered }) =>
    entered && entered.madeBy !== 'entered'
      ? [
          {
            ...about(undefined),
            key: `entered:${entered.id}`,
            kind: 'entered' as const,
            sentence: `${label}: ${entered.typed} ${entered.unit}, entered, not computed here: ${panelResultWords(entered)}.`,
            blocking: false,
          },
        ]
      : [],
  )
}

function replacedPoints({ panel }: RangeView): FoundPoint[] {
  return panel.flatMap(({ label, ...row }) => {
    const entered = row.entered ?? row.beside
    if (!entered?.supersedes) return []
    const { supersedes, typed, unit, by } = entered
    return [
      {
        ...about(undefined),
        key: `correction:${entered.id}`,
        kind: 'correction' as const,
        sentence: `${label}, entered: ${supersedes.typed} ${supersedes.unit} replaced by ${typed} ${unit} by ${by.name}: ${supersedes.reason}.`,
        blocking: false,
      },
    ]
  })
}

/** What the list says elsewhere already is not said twice. */
const saidElsewhere: readonly string[] = ['few-replicates', 'missing-method']

function flagPoints({ flags }: RangeView): FoundPoint[] {
  return flags
    .filter(({ key }) => !saidElsewhere.includes(key))
    .map(({ key, sentence }) => ({
      ...about(undefined),
      key: `flag:${key}:${sentence}`,
      kind: 'flag',
      sentence,
      blocking: false,
    }))
}

function about(specimen: SpecimenRow | undefined): Pick<FoundPoint, 'name' | 'code' | 'testId'> {
  return {
    name: specimen ? nameOf(specimen) : null,
    code: specimen?.code ?? null,
    testId: specimen?.testId ?? null,
  }
}
