import { isSuppliedByOthers } from '@curebook/contract/made-by'
import { gradationLabel } from '@curebook/contract/gradations'
import type { SignedContent } from '@curebook/contract/signed-content'

/** What ISO/IEC 17025:2017, clause 7.8.2, asks a report to say in words. */
export function reportStatements(content: SignedContent): string[] {
  const { laboratory, enteredResults, panel, recommendation } = content
  const suppliers = enteredResults.filter(isSuppliedByOthers)
  const elsewhere = suppliers.some(({ madeBy }) => madeBy === 'outside' || madeBy === 'customer')
  const isBeside = ({ key }: { key: string }) => panel.some((row) => row.key === key && row.beside)
  const untested = panel.filter(({ verdict }) => verdict === 'not tested').map(({ label }) => label)
  if (content.gradationCheck && !content.gradation) untested.push(gradationLabel)
  return [
    'The results relate only to the items tested. The laboratory holds no record of the sampling; the results apply to the samples as received.',
    `All work was done at ${laboratory.name}${laboratory.address ? `, ${laboratory.address}` : ''}${elsewhere ? ', except what others supplied as named here' : ''}.`,
    'This report shall not be reproduced except in full without the approval of the laboratory.',
    ...suppliedWords(
      'and not tested here',
      suppliers.filter((one) => !isBeside(one)),
    ),
    ...suppliedWords('beside what was tested here', suppliers.filter(isBeside)),
    ...(untested.length > 0
      ? [`Not tested: ${untested.join('; ')}. Nothing in this report says that the mix meets these.`]
      : []),
    ...(recommendation
      ? ['The recommended content is the engineer’s judgement on the results shown; it is not computed.']
      : []),
    'Bounds marked “from memory” or “common practice” stand in no document that the laboratory holds for them; they are printed as used.',
    'Uncertainty of measurement is not stated: no interlaboratory precision of these methods is known to the laboratory. The scatter of replicates is shown instead.',
  ]
}

function suppliedWords(how: string, suppliers: SignedContent['enteredResults']): string[] {
  if (suppliers.length === 0) return []
  const labels = suppliers.map(({ label }) => label.charAt(0).toLowerCase() + label.slice(1))
  return [`Supplied by others ${how}: ${labels.join('; ')}. The laboratory does not answer for these values.`]
}
