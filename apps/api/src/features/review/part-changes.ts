import type { SpecimenRow } from '@curebook/contract/designs'
import { countingSpecimens, type PartOfRun, type WorkRecord } from '#features/bench/work-record.service'

/** A lot that changed on the machine within the runs of one curve. */
export type PartChange = {
  readonly key: string
  /** The first one that ran on the later lot. */
  readonly specimen: SpecimenRow
  readonly sentence: string
}

type Run = { readonly specimen: SpecimenRow; readonly part: PartOfRun }

/** Changes of lot between two runs of one method on one machine, among the specimens that count. */
export function partChanges(work: WorkRecord): readonly PartChange[] {
  return seriesOf(work).flatMap((runs) =>
    runs.flatMap(({ specimen, part }, index) => {
      const before = runs[index - 1]
      if (!before || before.part.lot === part.lot) return []
      return [
        {
          // With the fitting: another change is another question.
          key: `${specimen.methodKey}:${part.fittingId}`,
          specimen,
          sentence: `${part.kind} of ${part.instrument} changed within the series: ${before.part.lot} up to ${before.specimen.label}, ${part.lot} from ${specimen.label}`,
        },
      ]
    }),
  )
}

/** For the remark of a specimen that ran on another lot than the first of its curve. */
export function changedPartsOf({ testId }: SpecimenRow, work: WorkRecord): readonly string[] {
  return seriesOf(work).flatMap((runs) => {
    const first = runs[0]?.part.lot
    const own = runs.filter(({ specimen }) => specimen.testId === testId).map(({ part }) => part)
    const other = own.findLast(({ lot }) => lot !== first)
    return other ? [`${other.kind} lot ${other.lot}, the series began on ${first}`] : []
  })
}

/** The runs that a change is looked for in, by curve, machine and part, in the order in which they began. */
function seriesOf(work: WorkRecord): readonly (readonly Run[])[] {
  const counting = new Map(countingSpecimens(work).map((specimen) => [specimen.testId, specimen]))
  const series = new Map<string, Run[]>()
  for (const part of work.parts) {
    const specimen = counting.get(part.testId)
    if (!specimen) continue
    const key = [specimen.methodKey, part.instrumentId, part.kind].join(' ')
    series.set(key, [...(series.get(key) ?? []), { specimen, part }])
  }
  return [...series.values()]
}
