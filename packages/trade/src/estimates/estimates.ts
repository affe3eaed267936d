import type { RefusalCode } from '../quantity/method-input-error.ts'
import { MethodInputError } from '../quantity/method-input-error.ts'
import { emulsionByFractions, fractionsText } from './emulsion-by-fractions.ts'
import type { Estimate, EstimateInput, EstimateText } from './estimate.ts'
import { surfaceAreaEstimate, surfaceAreaText } from './surface-area.ts'

/** An estimate; where it cannot be computed, without contents and with the sentence that says why. */
export type EstimateOutcome = Estimate & {
  readonly refusal: { readonly code: RefusalCode; readonly text: string } | null
}

const estimators: readonly { readonly about: EstimateText; readonly compute: (input: EstimateInput) => Estimate }[] = [
  { about: surfaceAreaText('us'), compute: (input) => surfaceAreaEstimate(input, 'us') },
  { about: surfaceAreaText('si'), compute: (input) => surfaceAreaEstimate(input, 'si') },
  { about: fractionsText, compute: emulsionByFractions },
]

/** Every estimate that there is, each computed or refused by itself. Any error but a refusal is a fault and passes. */
export function estimatesOf(input: EstimateInput): readonly EstimateOutcome[] {
  return estimators.map(({ about, compute }): EstimateOutcome => {
    try {
      return { ...compute(input), refusal: null }
    } catch (error) {
      if (!(error instanceof MethodInputError)) throw error
      return { ...about, contents: [], remarks: [], refusal: { code: error.code, text: error.message } }
    }
  })
}
