import type { MadeBy } from '@curebook/contract/made-by'
import type { PanelResult } from '@curebook/contract/panel-results'
import { digitsOf } from '#features/designs/plan-rows.ts'

type Around = {
  readonly id: string
  readonly limitKey: string
  readonly unit: string
  readonly madeBy: MadeBy
  /** Id under which a file was chosen; the one that stands is kept without. */
  readonly fileId: string | null
  readonly standing: PanelResult | null
}

/** What the form of an entered result holds; fields that are not asked for a maker are empty. */
export function readPanelResultForm(form: FormData, { id, limitKey, unit, madeBy, fileId, standing }: Around) {
  const text = (name: string) => String(form.get(name) ?? '').trim()
  const own = (name: string) => (madeBy === 'entered' ? text(name) : '')
  const others = (name: string) => (madeBy === 'entered' ? '' : text(name))
  const content = text('atEmulsionPercent')
  return {
    id,
    limitKey,
    typed: text('typed'),
    unit,
    madeBy,
    method: text('method'),
    edition: text('edition'),
    source: others('source'),
    laboratoryName: others('laboratoryName'),
    instrument: own('instrument'),
    observedBy: own('observedBy'),
    observedOn: text('observedOn'),
    atEmulsionPercent: content === '' ? null : digitsOf(content),
    remark: text('remark'),
    attachmentId: fileId ?? standing?.attachment?.id ?? null,
    ...(standing === null ? {} : { supersedes: { id: standing.id, reason: text('supersedes.reason') } }),
  }
}
