import type { Load, Ovens, StandingSpecimen } from '@curebook/contract/loads'
import type { EditionParameters, MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { massRuleOf } from '@curebook/trade/procedure/constant-mass'
import { standsIn, type StayKind, staysOf } from '@curebook/trade/procedure/stay'
import { methodOf } from './settle.ts'
import { checksOf, type ConstantMass, constantMassOf, toLoadReading, type WaitingSentences } from './load-mass.ts'
import type { ActRow, LoadReadingRow, LoadRow, MemberRow, StandingRow } from './loads.repository.ts'

export const stayKinds = ['oven', 'bath'] as const satisfies readonly StayKind[]

/** A specimen in an oven or bath now, with the load it stands in where one was named. */
export type Standing = StandingSpecimen & {
  readonly kind: StayKind
  readonly loadId: string | null
  readonly instrumentId: string | null
  readonly needsConstantMass: boolean
}

/** Who stands where now, by their acts alone. */
export function standingNow(
  methods: readonly MethodDeclaration[],
  rows: readonly StandingRow[],
  acts: readonly ActRow[],
): Standing[] {
  return rows.flatMap((row) => {
    const method = methodOf(methods, row.methodKey)
    const own = acts.filter(({ testId }) => testId === row.testId)
    const events = own.map(({ step, act, at }) => ({ step, act, at: at.toISOString() }))
    return stayKinds.flatMap((kind) =>
      staysOf(method, kind, events)
        .filter(({ until }) => until === null)
        .map(({ step, from }) => ({
          ...headOf(row, method, step),
          ...placeOf(own, step),
          kind,
          since: from,
          endsHere: endsHere(method, step),
          needsConstantMass:
            kind === 'oven' && massRuleOf(JSON.parse(row.parametersText) as EditionParameters) !== null,
        })),
    )
  })
}

const endsHere = (method: MethodDeclaration, stepKey: string) =>
  method.steps.find(({ key }) => key === stepKey)!.events.includes('end')

function placeOf(acts: readonly ActRow[], step: string) {
  const put = acts.find((act) => act.step === step && act.act === 'start')
  return { loadId: put?.loadId ?? null, instrumentId: put?.instrumentId ?? null }
}

/** Whose next act is to go into an oven or bath. */
export function waitingFor(methods: readonly MethodDeclaration[], rows: readonly StandingRow[]): Ovens['waiting'] {
  return rows.flatMap((row) => {
    const method = methodOf(methods, row.methodKey)
    const step = method.steps.find(({ key }) => key === row.dueStep)
    const kind = step && row.dueAct === 'start' ? stayKinds.find((one) => standsIn(step, one)) : undefined
    return step && kind ? [{ ...headOf(row, method, step.key), endsHere: endsHere(method, step.key), kind }] : []
  })
}

function headOf(row: StandingRow, method: MethodDeclaration, stepKey: string) {
  return {
    testId: row.testId,
    code: row.code,
    label: row.label,
    designId: row.designId,
    designName: row.designName,
    methodName: method.name,
    stepKey,
    stepTitle: method.steps.find(({ key }) => key === stepKey)?.title ?? stepKey,
    opensAt: row.opensAt?.toISOString() ?? null,
    closesAt: row.closesAt?.toISOString() ?? null,
    emulsionPercent: row.emulsionPercent,
  }
}

/** A load with what may be told of it to every client of it, which is not sent to the screens. */
export type LoadAtHand = Load & { readonly constantMass: ConstantMass | null }

/** One load as it stands. */
export function toLoad(
  load: LoadRow,
  standing: readonly Standing[],
  readings: readonly LoadReadingRow[],
  members: readonly MemberRow[],
  waiting: WaitingSentences,
): LoadAtHand {
  const inside = standing.filter(({ loadId }) => loadId === load.id)
  const own = readings.filter(({ loadId }) => loadId === load.id)
  const checks = checksOf(
    own,
    members.filter(({ loadId }) => loadId === load.id),
    waiting,
  )
  return {
    id: load.id,
    kind: load.kind,
    instrumentId: load.instrumentId,
    openedAt: load.openedAt.toISOString(),
    by: { membershipId: load.membershipId, name: load.name, initials: load.initials },
    specimens: inside.map(toSpecimen),
    temperatures: own.filter(({ stepKey }) => stepKey === 'temperature').map((row) => toLoadReading(row, waiting)),
    checks: checks.map(({ shared: _, comparedFrom: _from, aside: _aside, ...check }) => check),
    constantMass: inside.some(({ needsConstantMass }) => needsConstantMass)
      ? constantMassOf(
          checks,
          inside.map(({ since }) => since),
        )
      : null,
  }
}

export function toSpecimen(standing: Standing): StandingSpecimen {
  const { kind: _, loadId: _load, instrumentId: _instrument, needsConstantMass: _mass, ...specimen } = standing
  return specimen
}
