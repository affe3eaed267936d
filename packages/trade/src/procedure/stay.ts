import type { InstrumentKind, MethodDeclaration } from './declaration.ts'
import type { RecordedEvent } from './progress.ts'

/** Where specimens stand together for hours. */
export type StayKind = Extract<InstrumentKind, 'oven' | 'bath'>

/** One stay of a specimen in an oven or bath, ISO 8601; `until` is null while it stands there. */
export type Stay = { readonly step: string; readonly from: string; readonly until: string | null }

/**
 * The stays of a specimen in ovens or baths, by its acts alone. A stay ends with the end of its step; where the step has no
 * end to confirm (a soak), with the first act of a later step.
 */
export function staysOf(
  { steps }: Pick<MethodDeclaration, 'steps'>,
  kind: StayKind,
  events: readonly RecordedEvent[],
): readonly Stay[] {
  return steps.flatMap((step, index) => {
    if (!standsIn(step, kind)) return []
    const start = events.find((event) => event.step === step.key && event.act === 'start')
    if (!start) return []
    const later = new Set(steps.slice(index + 1).map(({ key }) => key))
    const ends = events.filter((event) =>
      step.events.includes('end') ? event.step === step.key && event.act === 'end' : later.has(event.step),
    )
    const until = ends.map(({ at }) => at).sort(byTime)[0] ?? null
    return [{ step: step.key, from: start.at, until }]
  })
}

/** Whether a step is a stay in this kind of instrument: it names no other. */
export function standsIn(step: MethodDeclaration['steps'][number], kind: StayKind): boolean {
  return step.events.includes('start') && step.equipment.length === 1 && step.equipment[0] === kind
}

function byTime(one: string, other: string): number {
  return Date.parse(one) - Date.parse(other)
}
