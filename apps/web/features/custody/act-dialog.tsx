'use client'

import type { Item } from '@curebook/contract/custody'
import { EventTimeField } from '#features/bench/event-time-field.tsx'
import { useEventTime } from '#features/bench/use-event-time.ts'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { useConfirmation } from '#components/toast.tsx'
import { inFieldSentences } from '#lib/field-sentences.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { ActFields } from './act-fields.tsx'
import { readAct, type AskedKind } from './act-form.ts'
import { useRecordAct } from './custody.queries.ts'
import { useCustodyAct } from './use-custody-act.ts'

/** One act of custody with what it needs: to whom, who signed, what was seen, when, and why. */
export function ActDialog({ item, kind, onClose }: { item: Item; kind: AskedKind; onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const record = useRecordAct(lab.id, item.id)
  const time = useEventTime()
  const sending = useCustodyAct(item, time, record)
  const { code } = item
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/custody').then(({ RecordActSchema }) => RecordActSchema),
    read: (form) => ({
      ...sending.take(),
      kind,
      ...readAct(kind, form),
    }),
    save: record,
    onSaved: () => {
      confirm(words(`custody.done.${kind}`, { code }))
      onClose()
    },
  })
  const errors = inFieldSentences(told, {
    placeId: words('custody.needPlace'),
    time: words('custody.needTime'),
  })
  return (
    <Dialog title={words(`custody.ask.${kind}`, { code })} onClose={onClose}>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={record.isPending}>
        <FormErrors errors={errors} />
        <ActFields kind={kind} errors={errors} />
        <EventTimeField time={time} />
        <div className="row">
          <Button type="submit" tone={kind === 'disposed' ? 'danger' : 'main'} busy={record.isPending}>
            {words(`custody.do.${kind}`)}
          </Button>
          <SaveState saving={savingOf(record)} />
        </div>
      </form>
    </Dialog>
  )
}
