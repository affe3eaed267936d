import type { PlanSeries } from '@curebook/contract/designs'
import type { FieldError } from '@curebook/contract/problem'
import { planSeries, type PlannedSpecimen, type SeriesKind } from '@curebook/trade/design/series'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { ItemForm, MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { decimal, plainDigits } from '@curebook/trade/quantity/decimal'

const shares = ['emulsionPercent', 'waterPercent', 'fillerPercent', 'additivePercent'] as const
const shareWords = {
  emulsionPercent: 'emulsion',
  waterPercent: 'added water',
  fillerPercent: 'filler',
  additivePercent: 'additive',
} as const
type Shares = Record<(typeof shares)[number], string>

/** A content that is planned already. */
export type StandingMix = Shares & { readonly id: string; readonly ordinal: number }
/** How many specimens of a content a method has already, over all revisions of the design. */
export type StandingReplicates = {
  readonly methodKey: string
  readonly emulsionPercent: string
  readonly highest: number
}

/** What a further plan adds to what stands. */
export type SeriesAddition = {
  /** Contents in the order given: `standing` where the content is planned already. */
  readonly contents: readonly (Shares & { readonly standing: StandingMix | null })[]
  /** In casting order; `content` counts into `contents`. Replicates go on from those that stand. */
  readonly specimens: readonly {
    content: number
    methodKey: string
    form: ItemForm
    replicate: number
    purpose: 'series' | 'spare'
    label: string
  }[]
}

/** Plans a series on top of what stands, or names every fault beside its field. */
export function addToSeries(
  input: PlanSeries,
  {
    kind,
    methods,
    mixes,
    replicates,
  }: {
    kind: SeriesKind
    methods: readonly MethodDeclaration[]
    mixes: readonly StandingMix[]
    replicates: readonly StandingReplicates[]
  },
): { ok: true; addition: SeriesAddition } | { ok: false; errors: FieldError[] } {
  const declared = input.methods.map((method) => {
    const declaration = methodByKey(methods, method.methodKey)
    return { ...method, form: declaration?.form ?? 'batch', madeFrom: declaration?.madeFrom ?? 'materials' }
  })
  const planned = planSeries({ kind, contents: input.contents, methods: declared })
  const errors = [
    ...(planned.ok ? [] : planned.problems.map(({ path, sentence }) => ({ path, message: sentence }))),
    ...faultsOfMethods(input, declared),
    ...(planned.ok ? faultsOfStanding(input, kind, mixes) : []),
  ]
  if (!planned.ok || errors.length > 0) return { ok: false, errors }
  const highest = ({ methodKey, emulsionPercent }: PlannedSpecimen) =>
    Math.max(
      0,
      ...replicates
        .filter((one) => one.methodKey === methodKey && decimal(one.emulsionPercent).eq(emulsionPercent))
        .map((one) => one.highest),
    )
  return {
    ok: true,
    addition: {
      contents: input.contents.map((content) => ({ ...content, standing: standingOf(content, mixes) ?? null })),
      specimens: planned.series.specimens.map((specimen) => {
        const replicate = specimen.replicate + highest(specimen)
        const { methodKey, form, purpose, emulsionPercent, mixOrdinal } = specimen
        return {
          content: mixOrdinal - 1,
          methodKey,
          form,
          purpose,
          replicate,
          label: `${plainDigits(decimal(emulsionPercent))}-${replicate}`,
        }
      }),
    },
  }
}

function faultsOfMethods(
  { methods }: PlanSeries,
  declared: readonly { madeFrom: MethodDeclaration['madeFrom'] }[],
): FieldError[] {
  return methods.flatMap(({ methodKey }, index) =>
    declared[index]!.madeFrom === 'batch'
      ? []
      : [
          {
            path: `methods.${index}.methodKey`,
            message: `“${methodKey}” is no test of a mix: choose one of the list.`,
          },
        ],
  )
}

function faultsOfStanding({ contents }: PlanSeries, kind: SeriesKind, mixes: readonly StandingMix[]): FieldError[] {
  return contents.flatMap((content, index): FieldError[] => {
    const standing = standingOf(content, mixes)
    if (!standing)
      return kind === 'verification' && mixes.length > 0
        ? [
            {
              path: `contents.${index}.emulsionPercent`,
              message: `A verification is at one content: ${mixes[0]!.emulsionPercent} % is planned already.`,
            },
          ]
        : []
    return shares.flatMap((share) =>
      decimal(standing[share]).eq(content[share])
        ? []
        : [
            {
              path: `contents.${index}.${share}`,
              message: `The mix of ${standing.emulsionPercent} % is planned with ${standing[share]} % ${shareWords[share]}. Give the same, or plan another content.`,
            },
          ],
    )
  })
}

function standingOf({ emulsionPercent }: Shares, mixes: readonly StandingMix[]): StandingMix | undefined {
  return mixes.find((mix) => decimal(mix.emulsionPercent).eq(emulsionPercent))
}
