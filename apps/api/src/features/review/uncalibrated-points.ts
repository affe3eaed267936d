import type { WorkRecord } from '#features/bench/work-record.service'
import type { FoundPoint } from './review-points.ts'

/** Read with an instrument that holds no calibration on record: nothing binds it, so whoever signs has seen it. */
export function uncalibratedPoints({ uncalibrated }: Pick<WorkRecord, 'uncalibrated'>): FoundPoint[] {
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
