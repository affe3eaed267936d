import type { SpecimenRow } from '@curebook/contract/designs'
import design from '@curebook/trade/reference-cases/marrowdale-design.json' with { type: 'json' }

/** What was weighed of one specimen, as typed. Without `w2` it was lost or not needed before its last weighing. */
export type WeighedRow = {
  readonly aggregate: string
  readonly emulsion: string
  readonly w1?: string
  readonly w2?: string
  readonly plate?: string
}

const oneHour = design.methods['1-hour']
const rowOf = (form: string, soak: string | null, label: string): WeighedRow | undefined =>
  design.rows.find((row) => row.form === form && row.soak === soak && row.label === label)

/** What the clean design leaves out: two discs and a strip that count for nothing, by method and label. All invented. */
const lost: Readonly<Record<string, WeighedRow>> = {
  [`${oneHour} 10-2`]: { aggregate: '800.1', emulsion: '79.3', w1: '759.1' },
  [`${oneHour} 12-4`]: { aggregate: '800.0', emulsion: '95.9', w1: '764.2' },
  [`${design.methods.strip} 12-1`]: { aggregate: '300.0', emulsion: '36.0', plate: '148.74' },
}

/** The row of a specimen as it happened: the spare 10-4 is what the clean design calls its second disc at 10 %. */
export function weighedRow({ methodKey, label, form }: SpecimenRow): WeighedRow | undefined {
  const found = lost[`${methodKey} ${label}`]
  if (found) return found
  const soak = form === 'strip' ? null : methodKey === oneHour ? '1-hour' : '6-day'
  return rowOf(form, soak, methodKey === oneHour && label === '10-4' ? '10-2' : label)
}
