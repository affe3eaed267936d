import { heldCondition, type HeldCondition } from '@curebook/trade/procedure/condition-log'
import type { EditionParameters, MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { type StayKind, staysOf } from '@curebook/trade/procedure/stay'
import type { RowsSql } from '#platform/sql-rows'
import { findPutIn, findStepsInto } from './stays.repository.ts'
import { findActs } from './loads.repository.ts'
import { methodOf } from './settle.ts'

/** How far back a specimen may have been put in that still stands there: six days of soak, and a week of grace. */
const stayMs = 14 * 86_400_000

export type OvenAtHand = { readonly id: string; readonly code: string; readonly kind: StayKind }

/** A specimen's time in the instrument and what its edition asks for while it stands there. */
export type HeldStay = {
  readonly testId: string
  readonly designId: string | null
  readonly loadId: string | null
  readonly from: string
  readonly until: string | null
  readonly held: HeldCondition
}

/** Who stood in an instrument since an instant, and what each asked for. */
export async function staysIn(
  sql: RowsSql,
  methods: readonly MethodDeclaration[],
  oven: OvenAtHand,
  since: Date,
): Promise<HeldStay[]> {
  const tests = await findPutIn(sql, oven.id, new Date(since.getTime() - stayMs))
  const ids = tests.map(({ testId }) => testId)
  const [acts, into] = [await findActs(sql, ids), await findStepsInto(sql, oven.id, ids)]
  return tests.flatMap(({ testId, methodKey, parametersText, designId }) => {
    const method = methodOf(methods, methodKey)
    const events = acts
      .filter((act) => act.testId === testId)
      .map(({ step, act, at }) => ({ step, act, at: at.toISOString() }))
    return staysOf(method, oven.kind, events).flatMap(({ step, from, until }) => {
      const put = into.find((one) => one.testId === testId && one.step === step)
      const declared = method.steps.find(({ key }) => key === step)!
      const held = heldCondition(declared, JSON.parse(parametersText) as EditionParameters)
      return put && held ? [{ testId, designId, loadId: put.loadId, from, until, held }] : []
    })
  })
}
