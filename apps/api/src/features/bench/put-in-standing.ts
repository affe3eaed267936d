import type { PutIn } from '@curebook/contract/put-in'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { EditionParameters, MethodDeclaration, WindowDeclaration } from '@curebook/trade/procedure/declaration'
import { machineOf, putInWindowOf, soakOf } from '@curebook/trade/procedure/put-in'
import { invalidField } from '#platform/problem'
import type { PutInTest, Runs } from './put-in.repository.ts'

/** A method with a soak before a machine: the window between them, the kind of machine, and every run that it does. */
export function soakingMethod(methods: readonly MethodDeclaration[], methodKey: string) {
  const method = methodByKey(methods, methodKey)
  const [window, kind] = [method && putInWindowOf(method), method && machineOf(method)]
  if (!method || !window || !kind)
    throw invalidField('methodKey', 'This method has no soak before a machine: choose an abrasion test.')
  const runs: Runs = methods.flatMap((one) => {
    const step = putInWindowOf(one)?.step
    return step !== undefined && machineOf(one) === kind ? [{ method: one.key, step }] : []
  })
  return { method, window, kind, runs }
}

/** Tests pinned to different editions lie in one bath: what suits all of them. */
export function soakOfTests(window: WindowDeclaration, tests: readonly PutInTest[]): NonNullable<PutIn['soak']> {
  const editions = [...new Set(tests.map(({ parameters }) => parameters))]
  const soaks = editions.map((parameters) => soakOf(window, JSON.parse(parameters) as EditionParameters))
  return {
    earliestMinutes: Math.max(...soaks.map(({ earliestMs }) => earliestMs)) / 60_000,
    latestMinutes: Math.min(...soaks.map(({ latestMs }) => latestMs)) / 60_000,
    edition: [...new Set(tests.map(({ designation }) => designation))].join(', '),
  }
}

/** Who waits and who soaks, in the order of the tests. */
export function whereTheyStand(
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
