import type { WallOven } from '@curebook/contract/wall'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import { heldCondition, type HeldCondition, isOutside } from '@curebook/trade/procedure/condition-log'
import type { EditionParameters, MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { staysOf } from '@curebook/trade/procedure/stay'
import type { OvenRow, StayActRow, WorkedRow } from './wall-content.repository.ts'

/** A specimen in an oven or bath now: where, since when, when its next act takes it out, and what it asks for. */
export type Standing = {
  readonly testId: string
  readonly instrumentId: string | null
  readonly since: string
  readonly opensAt: string | null
  readonly closesAt: string | null
  readonly held: HeldCondition | null
}

/** Who stands where now, by their acts alone. */
export function standingOf(
  methods: readonly MethodDeclaration[],
  worked: readonly WorkedRow[],
  acts: readonly StayActRow[],
): Standing[] {
  const actsOf = new Map<string, StayActRow[]>()
  for (const act of acts) actsOf.set(act.testId, [...(actsOf.get(act.testId) ?? []), act])
  return worked.flatMap((row) => {
    const method = methodByKey(methods, row.methodKey)
    const own = actsOf.get(row.testId) ?? []
    if (!method || own.length === 0) return []
    const events = own.map(({ step, act, at }) => ({ step, act, at: at.toISOString() }))
    return (['oven', 'bath'] as const)
      .flatMap((kind) => staysOf(method, kind, events))
      .filter(({ until }) => until === null)
      .map(({ step, from }) => ({
        testId: row.testId,
        instrumentId: own.find((act) => act.step === step && act.act === 'start')?.instrumentId ?? null,
        since: from,
        opensAt: row.opensAt?.toISOString() ?? null,
        closesAt: row.closesAt?.toISOString() ?? null,
        held: heldCondition(
          method.steps.find(({ key }) => key === step)!,
          JSON.parse(row.parametersText) as EditionParameters,
        ),
      }))
  })
}

/** Ovens and baths with what stands inside; one out of service only while something still does. */
export function ovensOf(ovens: readonly OvenRow[], standing: readonly Standing[]): WallOven[] {
  return ovens.flatMap((oven) => {
    const inside = standing.filter(({ instrumentId }) => instrumentId === oven.id)
    if (!oven.inService && inside.length === 0) return []
    return [
      {
        code: oven.code,
        name: oven.name,
        kind: oven.kind,
        count: inside.length,
        since: inside.map(({ since }) => since).sort(byTime)[0] ?? null,
        out: nextOut(inside),
        limits: limitsOf(inside),
        last: lastOf(oven, inside),
      },
    ]
  })
}

/** What comes out first: by when it may, or by when it must where nothing says that; with all that share its times. */
function nextOut(inside: readonly Standing[]): WallOven['out'] {
  const [first] = inside
    .filter(({ opensAt, closesAt }) => opensAt !== null || closesAt !== null)
    .toSorted((one, other) => byTime((one.opensAt ?? one.closesAt)!, (other.opensAt ?? other.closesAt)!))
  if (!first) return null
  const { opensAt, closesAt } = first
  return {
    count: inside.filter((one) => one.opensAt === opensAt && one.closesAt === closesAt).length,
    opensAt,
    closesAt,
  }
}

function limitsOf(inside: readonly Standing[]): WallOven['limits'] {
  const limits = inside.flatMap(({ held }) =>
    held ? [{ target: held.target, tolerance: held.tolerance, unit: held.unit }] : [],
  )
  return [...new Map(limits.map((limit) => [JSON.stringify(limit), limit])).values()]
}

/** The last value, against what those ask for who stood inside when it was read. */
function lastOf({ typed, value, unit, observedAt }: OvenRow, inside: readonly Standing[]): WallOven['last'] {
  if (typed === null || value === null || unit === null || observedAt === null) return null
  const held = inside.flatMap(({ held: one, since }) => (one && Date.parse(since) <= observedAt.getTime() ? [one] : []))
  return {
    typed,
    unit,
    at: observedAt.toISOString(),
    outside: held.length === 0 ? null : held.some((one) => isOutside(value, one)),
  }
}

function byTime(one: string, other: string): number {
  return Date.parse(one) - Date.parse(other)
}
