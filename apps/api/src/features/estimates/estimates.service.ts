import { estimateFields, type EstimateField, type EstimateQuery, type Estimates } from '@curebook/contract/estimates'
import type { Gradation } from '@curebook/contract/gradations'
import { gradationWords } from '@curebook/contract/panel-result-words'
import type { GivenValue, PassingSieve } from '@curebook/trade/estimates/estimate'
import { estimatesOf } from '@curebook/trade/estimates/estimates'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'
import { readGradation } from '@curebook/trade/specification/gradation'
import type { DesignsService } from '#features/designs/designs.service'
import type { Actor } from '#platform/actor'
import type { Laboratory } from '#platform/laboratory'
import { AppError } from '#platform/problem'

export type EstimatesService = ReturnType<typeof createEstimatesService>

/** Contents to begin a series with, out of the gradation alone: computed when asked for, and kept nowhere. */
export function createEstimatesService({ laboratory, designs }: { laboratory: Laboratory; designs: DesignsService }) {
  const read = (actor: Actor, designId: string, query: EstimateQuery): Promise<Estimates> =>
    laboratory.inLaboratory(actor, async (tx) => {
      const { residue, revision } = await designs.readIn(tx, designId, query.revision)
      const gradation = await designs.gradationIn(tx, designId, revision)
      const given = readGiven(query)
      if (gradation === null) return { gradation, residue, estimates: [] }
      const estimates = estimatesOf({
        sieves: sievesOf(gradation),
        gradation: { source: gradationWords({ ...gradation, attachment: null }), id: gradation.id },
        apparentGravity: given.apparentGravity,
        absorption: given.absorption,
        binderGravity: given.binderGravity,
        filmMicrons: given.film,
        extraFiller: given.filler,
        residue: residue ? { value: residue.value, source: residue.source, id: residue.id } : undefined,
      })
      return {
        gradation,
        residue,
        estimates: estimates.map(({ contents, remarks, ...estimate }) => ({
          ...estimate,
          remarks: [...remarks],
          contents: contents.map((content) => ({
            ...content,
            calculation: { schema: 1, lines: content.calculation.lines.map(toLine) },
          })),
        })),
      }
    })

  return { read }
}

type Line = ReturnType<typeof estimatesOf>[number]['contents'][number]['calculation']['lines'][number]
const toLine = ({ operands, ...line }: Line) => ({ ...line, operands: [...operands] })

const fields: Readonly<Record<EstimateField, { label: string; unit?: string }>> = {
  apparentGravity: { label: 'The apparent specific gravity of the aggregate' },
  absorption: { label: 'The absorption', unit: '%' },
  binderGravity: { label: 'The specific gravity of the binder' },
  film: { label: 'The film of binder' },
  filler: { label: 'The cement or lime that is not in the gradation', unit: '%' },
}

/** @throws AppError `invalid-input` with a sentence beside each field that holds no number */
function readGiven(query: EstimateQuery): Partial<Record<EstimateField, GivenValue>> {
  const errors: { path: string; message: string }[] = []
  const given: Partial<Record<EstimateField, GivenValue>> = {}
  for (const field of estimateFields) {
    const typed = query[field] ?? ''
    if (typed === '') continue
    const read = readTypedNumber(typed, fields[field])
    if (read.ok) given[field] = { value: read.value, source: 'as entered for this estimate' }
    else errors.push({ path: field, message: read.message })
  }
  if (errors.length > 0) throw new AppError('invalid-input', errors[0]!.message, { errors })
  return given
}

/** Sieves were read when they were entered, so that they can be read again. */
function sievesOf({ sieves }: Gradation): readonly PassingSieve[] {
  const read = readGradation(sieves)
  if (!read.ok) throw new Error(`A stored gradation cannot be read: ${read.message}`)
  return read.sieves.map(({ size, passing }) => ({ size: size.value, passing: passing.value }))
}
