import type { PutIn, SettlePutIn } from '@curebook/contract/put-in'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { EditionParameters, MethodDeclaration, WindowDeclaration } from '@curebook/trade/procedure/declaration'
import { neededDaysOf } from '@curebook/trade/procedure/weekday-law'
import type { Actor } from '#platform/actor'
import type { Laboratory } from '#platform/laboratory'
import { notFound } from '#platform/problem'
import { type RowsSql, rowsSql } from '#platform/sql-rows'
import { castingSeriesOf } from './casting-order.ts'
import { findSettled } from './put-in-lists.repository.ts'
import { settleList } from './put-in-settle.ts'
import { soakingMethod, soakOfTests, whereTheyStand } from './put-in-standing.ts'
import {
  findBreaks,
  findMachines,
  findPutInTests,
  findRunning,
  findSoakingElsewhere,
  type PutInTest,
  type SoakingElsewhere,
} from './put-in.repository.ts'

export type PutInService = ReturnType<typeof createPutInService>

/** A run still takes the machine, however long it was told to be. */
const longestRunMs = 4 * 3_600_000

/** Who lies in the bath and who is to be put in, for a list of times; and the list that was settled. */
export function createPutInService({
  laboratory,
  methods,
}: {
  laboratory: Laboratory
  methods: readonly MethodDeclaration[]
}) {
  function read(actor: Actor, asked: { designId: string; methodKey: string }): Promise<PutIn> {
    const { method, window, kind, runs } = soakingMethod(methods, asked.methodKey)
    return laboratory.inLaboratorySql(actor, async (raw) => {
      const sql = rowsSql(raw)
      const name = await designName(sql, asked.designId)
      const ordered = castingSeriesOf(await findPutInTests(sql, { ...asked, run: window.step })).flatMap(
        ({ rows }) => rows,
      )
      const after = new Date(sql.at.getTime() - longestRunMs)
      // Sent together: what does not wait for one another.
      const [{ breaks }, machines, elsewhere, running, settled] = await Promise.all([
        findBreaks(sql),
        findMachines(sql, kind),
        findSoakingElsewhere(sql, { ...asked, runs }),
        findRunning(sql, { ...asked, runs }, { kind, after }),
        findSettled(sql, asked),
      ])
      return {
        now: sql.at.toISOString(),
        ...asked,
        designName: name,
        methodName: method.name,
        soak: ordered.length > 0 ? soakOfTests(window, ordered) : null,
        later: laterDays(method, window, ordered[0]),
        breaks: [...breaks],
        machines,
        elsewhere: elsewhere.map((test) => toElsewhere(test, methods)),
        running: running.map(({ startedAt, instrumentId }) => ({ startedAt: startedAt.toISOString(), instrumentId })),
        settled,
        ...whereTheyStand(ordered, method, window),
      }
    })
  }

  return { read, settle: (actor: Actor, input: SettlePutIn) => settleList({ laboratory, methods }, actor, input) }
}

async function designName(sql: RowsSql, id: string): Promise<string> {
  const [design] = await sql.rows<{ name: string }>(
    'select name from design where lab_id = $1::uuid and id = $2::uuid',
    [sql.actor.labId, id],
  )
  if (!design) throw notFound('design')
  return design.name
}

function toElsewhere(
  { methodKey, opensAt, closesAt, settledStartAt, ...test }: SoakingElsewhere,
  methods: readonly MethodDeclaration[],
): PutIn['elsewhere'][number] {
  return {
    ...test,
    methodName: methodByKey(methods, methodKey)?.name ?? methodKey,
    mayStartAt: opensAt.toISOString(),
    mustStartAt: closesAt.toISOString(),
    settledStartAt: settledStartAt?.toISOString() ?? null,
  }
}

/** Without an open test nothing is planned, and no edition is asked. */
function laterDays(method: MethodDeclaration, window: WindowDeclaration, test: PutInTest | undefined): PutIn['later'] {
  if (!test) return []
  return [...neededDaysOf(method, JSON.parse(test.parameters) as EditionParameters, window.after.step)]
}
