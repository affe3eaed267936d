import type { Gradation } from './gradations.ts'
import type { MadeBy } from './made-by.ts'
import type { PanelResult } from './panel-results.ts'

type Found = Pick<
  PanelResult,
  | 'method'
  | 'edition'
  | 'madeBy'
  | 'laboratoryName'
  | 'source'
  | 'instrument'
  | 'observedBy'
  | 'atEmulsionPercent'
  | 'remark'
  | 'attachment'
>

const makers: Readonly<Record<MadeBy, string>> = {
  entered: 'own test by hand',
  outside: 'another laboratory',
  customer: 'given by the client',
}

/** Where an entered result comes from, in one line: method, who made it, what it was read from, by whom, its remark and file. */
export function panelResultWords(result: Found): string {
  const { method, edition, madeBy, laboratoryName, source, instrument, observedBy, atEmulsionPercent } = result
  return [
    edition === '' ? method : `${method}, ${edition}`,
    laboratoryName === '' ? makers[madeBy] : `${makers[madeBy]}, ${laboratoryName}`,
    source.toLowerCase() === makers[madeBy] ? '' : source,
    atEmulsionPercent === null ? '' : `at ${atEmulsionPercent} % emulsion`,
    instrument,
    observedBy === '' ? '' : `observed by ${observedBy}`,
    result.remark,
    result.attachment === null ? '' : `file ${result.attachment.name} (SHA-256 ${result.attachment.sha256})`,
  ]
    .filter((part) => part !== '')
    .join('; ')
}

/** The same of a gradation. */
export function gradationWords(gradation: Gradation): string {
  return panelResultWords({ ...gradation, instrument: '', atEmulsionPercent: null })
}
