import type { DemandCheck } from '@curebook/contract/demand'
import type { PlanSeries } from '@curebook/contract/designs'
import { demandRows, liquidDensity, otherTests, type Arrived } from '@curebook/trade/design/demand-check'
import { demandOf, type FormBatch } from '@curebook/trade/design/demand'
import { planSeries, type PlannedSpecimen, type Series } from '@curebook/trade/design/series'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { EditionParameters, ItemForm } from '@curebook/trade/procedure/declaration'
import { parameterOf } from '@curebook/trade/procedure/evaluation'
import { decimal, plainDigits } from '@curebook/trade/quantity/decimal'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { AppError } from '#platform/problem'
import { digitsOf } from '#platform/row-values'
import { type DesignContext, revisionIn } from './design-context.ts'
import type { RevisionRow } from './designs.repository.ts'
import { specimensOf } from './specimen-rows.ts'

/**
 * Whether what arrived suffices: for the series as it stands, or for one that is being planned. Aggregate whose moisture is
 * not entered yet is counted dry.
 */
export async function demandCheck(
  context: DesignContext,
  tx: LaboratoryTransaction,
  designId: string,
  planned: PlanSeries | null,
): Promise<DemandCheck> {
  const revision = await revisionIn(tx, designId)
  const series = planned ? plannedSeries(context, revision, planned) : await standingSeries(context, tx, revision)
  const { parameters } = await context.methods.editionInForceIn(tx, 'batch')
  const moisture = revision.moistureResult?.value
  const outcome = demandOf(series, batchesOf(revision, parameters), moisture ? digitsOf(moisture) : '0')
  const assumed = [
    `Other tests of the panel take ${kilograms(otherTests.takesG.aggregate!)} kg of aggregate and ${kilograms(otherTests.takesG.emulsion!)} kg of emulsion: ${otherTests.source}.`,
    `What came in litres is counted at ${liquidDensity.value} kg/L: ${liquidDensity.source}.`,
    ...(moisture ? [] : ['The moisture of the aggregate is not entered yet: it is counted dry.']),
  ]
  const specimens = series.specimens.length
  if (!outcome.ok) return { specimens, rows: [], assumed, refusal: outcome.sentence }
  const samples = samplesOf(revision)
  const ids = Object.values(samples).flatMap((id) => id ?? [])
  const materials = await context.materials.readIn(tx, ids)
  const amounts = await context.materials.receivedIn(tx, ids)
  const arrivedOf = (id: string | null): Arrived => {
    const amount = id === null ? undefined : amounts.get(id)
    if (!amount) return null
    const byVolume = !decimal(amount.volumeMl).isZero()
    return { massG: plainDigits(decimal(amount.volumeMl).times(liquidDensity.value).plus(amount.massG)), byVolume }
  }
  const arrived = Object.fromEntries(Object.entries(samples).map(([component, id]) => [component, arrivedOf(id)]))
  return {
    specimens,
    assumed,
    refusal: null,
    rows: demandRows(outcome.demand, arrived as Record<keyof typeof samples, Arrived>).map((row) => {
      const sample = materials.find(({ id }) => id === samples[row.component])
      return { ...row, sample: sample ? { id: sample.id, code: sample.code, name: sample.name } : null }
    }),
  }
}

function samplesOf(revision: RevisionRow) {
  return {
    aggregate: revision.aggregateItemId,
    emulsion: revision.emulsionItemId,
    filler: revision.fillerItemId,
    additive: revision.additiveItemId,
    water: revision.waterItemId,
  }
}

const kilograms = (grams: string) => plainDigits(decimal(grams).div(1000))

function batchesOf(
  revision: RevisionRow,
  parameters: EditionParameters,
): Readonly<Partial<Record<ItemForm, FormBatch>>> {
  const size = (form: 'disc' | 'strip') => parameterOf({ parameters }, `${form}-aggregate`).value
  return {
    disc: { dryAggregateG: size('disc'), scalpedPercent: revision.scalpedPercent || '0' },
    strip: { dryAggregateG: size('strip') },
  }
}

function plannedSeries({ methods }: DesignContext, revision: RevisionRow, input: PlanSeries): Series {
  const outcome = planSeries({
    kind: revision.design.kind === 'verification' ? 'verification' : 'full',
    contents: input.contents,
    methods: input.methods.flatMap((chosen) => {
      const method = methodByKey(methods.declarations, chosen.methodKey)
      // What the tests of the panel take is counted with the other tests.
      return method?.place === 'series' ? [{ ...chosen, form: method.form }] : []
    }),
  })
  if (outcome.ok) return outcome.series
  const errors = outcome.problems.map(({ path, sentence }) => ({ path, message: sentence }))
  throw new AppError('invalid-input', errors[0]!.message, { errors })
}

async function standingSeries(
  context: DesignContext,
  tx: LaboratoryTransaction,
  revision: RevisionRow,
): Promise<Series> {
  const specimens = await specimensOf(context, tx, revision.designId, revision.number)
  const ordinals = new Map(revision.mixes.map(({ id, ordinal }) => [id, ordinal]))
  return {
    mixes: revision.mixes.map(({ ordinal, ...mix }) => ({
      mixOrdinal: ordinal,
      emulsionPercent: digitsOf(mix.emulsionPercent),
      waterPercent: digitsOf(mix.waterPercent),
      fillerPercent: digitsOf(mix.fillerPercent),
      additivePercent: digitsOf(mix.additivePercent),
    })),
    // Of an earlier revision: made already, from what arrived then.
    specimens: specimens.flatMap((specimen): PlannedSpecimen[] => {
      const { mixId, emulsionPercent } = specimen
      const mixOrdinal = mixId === null ? undefined : ordinals.get(mixId)
      const method = methodByKey(context.methods.declarations, specimen.methodKey)
      if (mixOrdinal === undefined || emulsionPercent === null || method?.place !== 'series') return []
      return [{ ...specimen, emulsionPercent, mixOrdinal }]
    }),
  }
}
