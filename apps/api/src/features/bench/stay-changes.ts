import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { RecordedEvent } from '@curebook/trade/procedure/progress'
import { staysOf } from '@curebook/trade/procedure/stay'
import type { RowsSql } from '#platform/sql-rows'
import { findPlacesOf } from './stays.repository.ts'
import { judgeStays } from './excursions.ts'
import { stayKinds } from './load-view.ts'

/** A stay in an oven or bath that an act began, ended, or moved the end of; `at`: from when on it stands otherwise. */
export type ChangedStay = { readonly testId: string; readonly step: string; readonly at: string }

/** What acts make of a test's stays: a soak ends with the first act of a later step, so any act may end one. */
export function changedStays(
  method: MethodDeclaration,
  testId: string,
  before: readonly RecordedEvent[],
  after: readonly RecordedEvent[],
): readonly ChangedStay[] {
  return stayKinds.flatMap((kind) => {
    const earlier = staysOf(method, kind, before)
    return staysOf(method, kind, after).flatMap(({ step, from, until }) => {
      const stood = earlier.find((stay) => stay.step === step)
      if (!stood) return [{ testId, step, at: from }]
      if (stood.from === from && stood.until === until) return []
      const ends = [stood.until, until].flatMap((at) => at ?? [])
      return [
        { testId, step, at: stood.from === from ? ends.toSorted(byTime)[0]! : [stood.from, from].toSorted(byTime)[0]! },
      ]
    })
  })
}

/** Holds changed stays against the logs of where they were, one log after another in one order everywhere. */
export async function judgeChanged(
  sql: RowsSql,
  methods: readonly MethodDeclaration[],
  changed: readonly ChangedStay[],
): Promise<void> {
  if (changed.length === 0) return
  const places = await findPlacesOf(
    sql,
    changed.map(({ testId }) => testId),
  )
  const ovens = new Map(places.map(({ id, code, kind }) => [id, { id, code, kind }]))
  for (const id of [...ovens.keys()].sort()) {
    const times = changed.flatMap(({ testId, step, at }) =>
      places.some((place) => place.id === id && place.testId === testId && place.step === step) ? [Date.parse(at)] : [],
    )
    if (times.length > 0) await judgeStays(sql, methods, ovens.get(id)!, new Date(Math.min(...times)))
  }
}

function byTime(one: string, other: string): number {
  return Date.parse(one) - Date.parse(other)
}
