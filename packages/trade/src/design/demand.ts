import { decimal, type Decimal, plainDigits } from '../quantity/decimal.ts'
import type { ItemForm } from '../procedure/declaration.ts'
import { batchSheet, type BatchComponent, type BatchSheetOutcome } from './batch-sheet.ts'
import type { PlannedSpecimen, Series } from './series.ts'

/** How one form of specimen is batched; every specimen is cast from a batch of its own. */
export type FormBatch = {
  /** A parameter of the edition: 800 g for a disc, 300 g for a strip … */
  readonly dryAggregateG: string
  readonly fractionUsed?: string
  readonly scalpedPercent?: string
}

export type Demand = {
  /** What the series takes of each component, in g at full precision. */
  readonly totals: Readonly<Record<BatchComponent, string>>
  /** By form: batches, moist aggregate of the fraction used, and whole aggregate that yields it. */
  readonly forms: readonly {
    readonly form: ItemForm
    readonly batches: number
    readonly fractionUsed: string
    readonly aggregateG: string
    readonly wholeAggregateG: string
  }[]
}
export type DemandOutcome =
  { readonly ok: true; readonly demand: Demand } | { readonly ok: false; readonly sentence: string }

/** The batch sheet of a planned specimen, from its mix and how its form is batched. */
export function sheetOf(
  series: Series,
  specimen: PlannedSpecimen,
  batches: Readonly<Partial<Record<ItemForm, FormBatch>>>,
  moisturePercent: string,
): BatchSheetOutcome {
  const mix = series.mixes.find(({ mixOrdinal }) => mixOrdinal === specimen.mixOrdinal)
  const batch = batches[specimen.form]
  if (!mix || !batch)
    return {
      ok: false,
      refusal: { code: 'missing-size', sentence: `The size of a batch for a ${specimen.form} is not on record.` },
    }
  return batchSheet({ ...mix, ...batch, moisturePercent })
}

/** What a series takes of each material, spares included; refused with the first batch that cannot be. */
export function demandOf(
  series: Series,
  batches: Readonly<Partial<Record<ItemForm, FormBatch>>>,
  moisturePercent: string,
): DemandOutcome {
  const nothing = decimal('0')
  const totals: Record<BatchComponent, Decimal> = {
    aggregate: nothing,
    filler: nothing,
    water: nothing,
    additive: nothing,
    emulsion: nothing,
  }
  const forms = new Map<ItemForm, { batches: number; fractionUsed: string; aggregate: Decimal; whole: Decimal }>()
  for (const specimen of series.specimens) {
    const outcome = sheetOf(series, specimen, batches, moisturePercent)
    if (!outcome.ok) return { ok: false, sentence: `${specimen.label}: ${outcome.refusal.sentence}` }
    const { rows, fractionUsed, wholeAggregateG } = outcome.sheet
    for (const { component, targetG } of rows) totals[component] = totals[component].plus(targetG)
    const before = forms.get(specimen.form)
    const aggregate = rows.find(({ component }) => component === 'aggregate')?.targetG ?? '0'
    forms.set(specimen.form, {
      batches: (before?.batches ?? 0) + 1,
      fractionUsed,
      aggregate: (before?.aggregate ?? nothing).plus(aggregate),
      whole: (before?.whole ?? nothing).plus(wholeAggregateG),
    })
  }
  return {
    ok: true,
    demand: {
      totals: {
        aggregate: plainDigits(totals.aggregate),
        filler: plainDigits(totals.filler),
        water: plainDigits(totals.water),
        additive: plainDigits(totals.additive),
        emulsion: plainDigits(totals.emulsion),
      },
      forms: [...forms].map(([form, { batches: count, fractionUsed, aggregate, whole }]) => ({
        form,
        batches: count,
        fractionUsed,
        aggregateG: plainDigits(aggregate),
        wholeAggregateG: plainDigits(whole),
      })),
    },
  }
}
