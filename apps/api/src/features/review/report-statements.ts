import { isSuppliedByOthers } from '@curebook/contract/made-by'
import type { SignedContent } from '@curebook/contract/signed-content'

/** What ISO/IEC 17025:2017, clause 7.8.2, asks a report to say in words. */
export function reportStatements({ laboratory, enteredResults, panel, recommendation }: SignedContent): string[] {
  const suppliers = enteredResults.filter(isSuppliedByOthers)
  const elsewhere = suppliers.some(({ madeBy }) => madeBy === 'outside' || madeBy === 'customer')
  const untested = panel.filter(({ verdict }) => verdict === 'not tested')
  return [
    'The results relate only to the items tested. The laboratory holds no record of the sampling; the results apply to the samples as received.',
    `All work was done at ${laboratory.name}${laboratory.address ? `, ${laboratory.address}` : ''}${elsewhere ? ', except what others supplied as named here' : ''}.`,
    'This report shall not be reproduced except in full without the approval of the laboratory.',
    ...(suppliers.length > 0
      ? [
          `Supplied by others and not tested here: ${suppliers.map(({ label }) => label.charAt(0).toLowerCase() + label.slice(1)).join('; ')}. The laboratory does not answer for these values.`,
        ]
      : []),
    ...(untested.length > 0
      ? [
          `Not tested: ${untested.map(({ label }) => label).join('; ')}. Nothing in this report says that the mix meets these.`,
        ]
      : []),
    ...(recommendation
      ? ['The recommended content is the engineer’s judgement on the results shown; it is not computed.']
      : []),
    'Bounds marked “from memory” or “common practice” stand in no document that the laboratory holds for them; they are printed as used.',
    'Uncertainty of measurement is not stated: no interlaboratory precision of these methods is known to the laboratory. The scatter of replicates is shown instead.',
  ]
}
