import type { Design } from '@curebook/contract/designs'
import type { Gradation } from '@curebook/contract/gradations'
import type { GradationCheck } from '@curebook/contract/range'
import type { DecimalSign } from '@curebook/trade/quantity/display'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'
import { checkGradation } from '@curebook/trade/specification/gradation-band'
import type { PanelOutcome } from '@curebook/trade/specification/panel'
import type { Specification } from '@curebook/trade/specification/specification'

/** What the design itself holds and its specification limits: the residue of the emulsion, once entered or found. */
export function heldOf({ residue }: Pick<Design, 'residue'>, { limits }: Specification): readonly PanelOutcome[] {
  if (residue === null) return []
  return limits.flatMap(({ key, property }) =>
    property === 'residue' ? [{ limitKey: key, value: residue.value, unit: residue.unit, entered: true }] : [],
  )
}

/** The gradation that was entered against the band of the specification; null where it holds none. */
export function gradationCheckOf(
  { gradationBand }: Specification,
  gradation: Gradation | null,
  sign: DecimalSign,
): GradationCheck | null {
  if (!gradationBand) return null
  const { source, certainty, clause } = gradationBand
  const { rows, verdict, sentence } = checkGradation(gradationBand, sievesOf(gradation), sign)
  return {
    rows: rows.map((row) => ({ ...row })),
    verdict,
    sentence: gradation === null ? 'No gradation is entered: not tested.' : sentence,
    source: clause ? `${source}, ${clause}` : source,
    certainty,
  }
}

/** They were read when they were entered; a sieve that cannot be read again counts as not used. */
function sievesOf(gradation: Gradation | null) {
  return (gradation?.sieves ?? []).flatMap(({ size, passing }) => {
    const [opening, share] = [readTypedNumber(size, { unit: 'mm' }), readTypedNumber(passing, { unit: '%' })]
    return opening.ok && share.ok ? [{ size: opening.value, passing: share.value }] : []
  })
}
