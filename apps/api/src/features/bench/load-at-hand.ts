import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { notFound } from '#platform/problem'
import type { RowsSql } from '#platform/sql-rows'
import { waitingSentences } from './load-holds.ts'
import { type LoadAtHand, standingNow, toLoad } from './load-view.ts'
import {
  findActs,
  findLoadReadings,
  findLoads,
  findMembers,
  findWorked,
  type LoadRow,
  lockLoad,
} from './loads.repository.ts'

type Standing = ReturnType<typeof standingNow>

/** Everybody in an oven or bath now, of all projects. */
export async function standingIn(sql: RowsSql, methods: readonly MethodDeclaration[]) {
  const rows = await findWorked(sql)
  const acts = await findActs(
    sql,
    rows.map(({ testId }) => testId),
  )
  return { rows, standing: standingNow(methods, rows, acts) }
}

export async function viewsOf(sql: RowsSql, loads: readonly LoadRow[], standing: Standing): Promise<LoadAtHand[]> {
  const ids = loads.map(({ id }) => id)
  const [readings, members] = [await findLoadReadings(sql, ids), await findMembers(sql, ids)]
  const waiting = await waitingSentences(
    sql,
    readings.flatMap(({ id, waits, leftOut }) => (waits && !leftOut ? [id] : [])),
  )
  return loads.map((load) => toLoad(load, standing, readings, members, waiting))
}

export async function loadIn(sql: RowsSql, methods: readonly MethodDeclaration[], id: string): Promise<LoadAtHand> {
  const [load] = await findLoads(sql, [id], null)
  if (!load) throw notFound('load')
  return (await viewsOf(sql, [load], (await standingIn(sql, methods)).standing))[0]!
}

/** The loads that these specimens stand in at these steps, locked, as they are before anything is taken out. */
export async function loadsOf(
  sql: RowsSql,
  methods: readonly MethodDeclaration[],
  rows: readonly { readonly testId: string; readonly stepKey: string }[],
): Promise<LoadAtHand[]> {
  const acts = await findActs(
    sql,
    rows.map(({ testId }) => testId),
  )
  const put = acts.filter(
    ({ act, testId, step }) => act === 'start' && rows.some((row) => row.testId === testId && row.stepKey === step),
  )
  const ids = [...new Set(put.flatMap(({ loadId }) => loadId ?? []))].sort()
  if (ids.length === 0) return []
  for (const id of ids) await lockLoad(sql, id)
  return viewsOf(sql, await findLoads(sql, ids, null), (await standingIn(sql, methods)).standing)
}
