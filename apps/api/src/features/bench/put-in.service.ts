import type { PutIn } from '@curebook/contract/put-in'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { EditionParameters, MethodDeclaration, WindowDeclaration } from '@curebook/trade/procedure/declaration'
import { putInWindowOf, soakOf } from '@curebook/trade/procedure/put-in'
import { neededDaysOf } from '@curebook/trade/procedure/weekday-law'
import type { Actor } from '#platform/actor'
import type { Laboratory } from '#platform/laboratory'
import { invalidField, notFound } from '#platform/problem'
import { rowsSql } from '#platform/sql-rows'
import { castingSeriesOf } from './casting-order.ts'
import { findPutInTests, type PutInTest } from './put-in.repository.ts'

export type PutInService = ReturnType<typeof createPutInService>

/** Who lies in the bath and who is to be put in, for a list of times. The times themselves are the reader's to plan. */
export function createPutInService({
  laboratory,
  methods,
}: {
  laboratory: Laboratory
  methods: readonly MethodDeclaration[]
}) {
  function read(actor: Actor, asked: { designId: string; methodKey: string }): Promise<PutIn> {
    const method = methodByKey(methods, asked.methodKey)
    const window = method && putInWindowOf(method)
    if (!method || !window)
      throw invalidField('methodKey', 'This method has no soak before a machine: choose an abrasion test.')
    return laboratory.inLaboratorySql(actor, async (raw) => {
      const sql = rowsSql(raw)
      const [design] = await sql.rows<{ name: string }>(
        'select name from design where lab_id = $1::uuid and id = $2::uuid',
        [actor.labId, asked.designId],
      )
      if (!design) throw notFound('design')
      const ordered = castingSeriesOf(await findPutInTests(sql, { ...asked, run: window.step })).flatMap(
        ({ rows }) => rows,
      )
      return {
        now: sql.at.toISOString(),
        ...asked,
        designName: design.name,
        methodName: method.name,
        soak: ordered.length > 0 ? narrowestSoak(window, ordered) : null,
        later: laterDays(method, window, ordered[0]),
        ...whereTheyStand(ordered, method, window),
      }
    })
  }

  return { read }
}

/** Tests pinned to different editions lie in one bath: what suits all of them. */
function narrowestSoak(window: WindowDeclaration, tests: readonly PutInTest[]): PutIn['soak'] {
  const editions = [...new Set(tests.map(({ parameters }) => parameters))]
  const soaks = editions.map((parameters) => soakOf(window, JSON.parse(parameters) as EditionParameters))
  return {
    earliestMinutes: Math.max(...soaks.map(({ earliestMs }) => earliestMs)) / 60_000,
    latestMinutes: Math.min(...soaks.map(({ latestMs }) => latestMs)) / 60_000,
    edition: [...new Set(tests.map(({ designation }) => designation))].join(', '),
  }
}

/** Without an open test nothing is planned, and no edition is asked. */
function laterDays(method: MethodDeclaration, window: WindowDeclaration, test: PutInTest | undefined): PutIn['later'] {
  if (!test) return []
  return [...neededDaysOf(method, JSON.parse(test.parameters) as EditionParameters, window.after.step)]
}

function whereTheyStand(
  tests: readonly PutInTest[],
  { steps }: MethodDeclaration,
  window: WindowDeclaration,
): Pick<PutIn, 'waiting' | 'soaking' | 'lastRunAt'> {
  const placeOf = (stepKey: string) => steps.findIndex(({ key }) => key === stepKey)
  const putIn = placeOf(window.after.step)
  const runs = tests.flatMap(({ startedAt }) => (startedAt ? [startedAt.getTime()] : []))
  const named = ({ testId, code, label }: PutInTest) => ({ testId, code, label })
  return {
    waiting: tests
      .filter(({ stepKey }) => placeOf(stepKey) <= putIn)
      .map((test) => ({
        ...named(test),
        spare: test.spare && !test.stands,
        ready: test.stepKey === window.after.step && test.act === window.after.act,
      })),
    soaking: tests.flatMap((test) =>
      test.stepKey === window.step && test.act === window.act && test.opensAt && test.closesAt
        ? [{ ...named(test), mayStartAt: test.opensAt.toISOString(), mustStartAt: test.closesAt.toISOString() }]
        : [],
    ),
    lastRunAt: runs.length === 0 ? null : new Date(Math.max(...runs)).toISOString(),
  }
}
