import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { choiceLabel, resultLabels } from '@curebook/trade/methods/result-labels'
import type { ReferenceCaseRow } from '@curebook/trade/procedure/reference-cases'
import type { RefusalCode } from '@curebook/trade/quantity/method-input-error'

const refused = 'refused: '
const reasons: Readonly<Record<RefusalCode, string>> = {
  'missing-reading': 'a reading is missing',
  'missing-setup': 'a factor, a moisture or a residue is missing',
  gain: 'a gain where only a loss can be',
  loss: 'a loss where only a gain can be',
  'not-positive': 'not more than nothing',
  inconsistent: 'readings that cannot all be true',
  'not-bracketed': 'outside what was read',
  'outside-conditions': 'made where the method does not hold',
  'waits-for-release': 'a reading waits for its release',
  'reading-withdrawn': 'a reading was taken back',
}

/** An outcome of a reference case as the bench names it: "Loss per area, 1-hour soak, g/m²", "refused: a reading is missing". */
export function outcomeWords(
  method: MethodDeclaration,
  row: Pick<ReferenceCaseRow, 'outcome' | 'expected' | 'obtained'>,
): { outcome: string; expected: string; obtained: string } {
  const [key = '', ...unit] = row.outcome.split(', ')
  const { label } = resultLabels([method], method.key, key, unit.length === 0 ? null : unit.join(', '))
  // Some results have their unit in their name.
  const told = unit.filter((one) => !label.includes(`, ${one}`))
  const said = (text: string) =>
    text.startsWith(refused)
      ? `${refused}${reasons[text.slice(refused.length) as RefusalCode] ?? text.slice(refused.length)}`
      : (choiceLabel([method], method.key, key, text) ?? text)
  return { outcome: [label, ...told].join(', '), expected: said(row.expected), obtained: said(row.obtained) }
}
