import type { SpecimenRow } from '@curebook/contract/designs'
import type { SignedContent } from '@curebook/contract/signed-content'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { WorkRecord } from '#features/bench/work-record.service'
import { wallClockWords } from './wall-clock-words.ts'

type Line = SignedContent['corrections'][number]

/** A time that was put right, or a reading that was taken back, as the review and the report say it. */
export type PutRight = {
  readonly key: string
  readonly kind: 'correction' | 'taken-back'
  readonly specimen: SpecimenRow
  /** What stands in the report's list. */
  readonly line: Line
}

/**
 * What was put right of the work beside corrected readings: times of acts, and readings taken back right after they were
 * entered. The latter are no corrections: nothing had been read from them; each is told once, read again or not.
 */
export function putRightOf(
  { movedActs, takenBack, specimens }: Pick<WorkRecord, 'movedActs' | 'takenBack' | 'specimens'>,
  methods: readonly MethodDeclaration[],
  zone: string,
): readonly PutRight[] {
  const specimenOf = (id: string) => specimens.find(({ testId, batchTestId }) => testId === id || batchTestId === id)
  const lineOf = (specimen: SpecimenRow, line: Omit<Line, 'code' | 'label'>): Line => ({
    code: specimen.code,
    label: `${specimen.label}, ${specimen.methodName}`,
    ...line,
  })
  const moved = movedActs.flatMap((act): PutRight[] => {
    const specimen = specimenOf(act.testId)
    if (!specimen) return []
    const method = methodByKey(methods, act.testId === specimen.testId ? specimen.methodKey : 'batch')
    const step = method?.steps.find(({ key }) => key === act.stepKey)
    const word = step?.eventLabels?.[act.kind] ?? act.kind
    const what = `${step?.title ?? act.stepKey}, ${word}`
    const from = `${what}: ${wallClockWords(zone, act.from)}`
    const { by, reason, at } = act
    const line = lineOf(specimen, { from, to: wallClockWords(zone, act.to), reason, by, at })
    return [{ key: `moved:${act.id}`, kind: 'correction', specimen, line }]
  })
  const undone = takenBack.flatMap(({ readingId, testId, typed, seconds, by, reason, at }): PutRight[] => {
    const specimen = specimenOf(testId)
    if (!specimen) return []
    const line = lineOf(specimen, { from: typed, to: `taken back after ${seconds} s`, reason, by, at })
    return [{ key: `taken-back:${readingId}`, kind: 'taken-back', specimen, line }]
  })
  return [...moved, ...undone]
}
