import type { ReviewPoint } from '@curebook/contract/review'
import type { WorkRecord } from '#features/bench/work-record.service'

/** Read with an instrument that holds no calibration on record: nothing binds it, so whoever signs has seen it. */
export function uncalibratedPoints({
  uncalibrated,
}: Pick<WorkRecord, 'uncalibrated'>): Omit<ReviewPoint, 'acknowledged' | 'effect'>[] {
  return uncalibrated.map(({ id, code, readings }) => ({
    key: `uncalibrated:${id}:${readings}`,
    kind: 'finding',
    sentence: `${code} holds no calibration on record; ${readings} ${readings === 1 ? 'reading was' : 'readings were'} taken with it.`,
    name: null,
    code: null,
    testId: null,
    blocking: false,
  }))
}
