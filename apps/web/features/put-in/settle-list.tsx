'use client'

import type { PutIn, SettlePutIn } from '@curebook/contract/put-in'
import { useRef, useState } from 'react'
import { Button } from '#components/button.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { MainActs } from '#components/main-acts.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextField } from '#components/text-field.tsx'
import { fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useWords } from '#lib/words.ts'
import { useSettlePutIn } from './put-in.queries.ts'
import { toSettle, type PlannedPutIn } from './put-in-view.ts'

/** Keeps the list as it stands, with by whom and when; the one before stays, superseded. */
export function SettleList({ data, plan }: { data: PutIn; plan: PlannedPutIn }) {
  const words = useWords()
  const lab = useLaboratory()
  const settle = useSettlePutIn(lab.id)
  const [reason, setReason] = useState('')
  // The same list sent again after a lost answer is the same act; another one is not.
  const sent = useRef<{ readonly text: string; readonly id: string }>(undefined)
  if (!lab.may('put-in:settle') || plan.rows.every(({ elsewhere }) => elsewhere)) return null
  function submit(event: React.FormEvent) {
    event.preventDefault()
    if (settle.isPending) return
    const list: Omit<SettlePutIn, 'id'> = toSettle(data, plan, reason)
    const text = JSON.stringify(list)
    if (sent.current?.text !== text) sent.current = { text, id: newId() }
    settle.mutate({ ...list, id: sent.current.id }, { onSuccess: () => setReason('') })
  }
  const sentences = Object.values(fieldErrors(settle.error))
  return (
    <form className="stack stack-tight no-print" noValidate onSubmit={submit} aria-busy={settle.isPending}>
      <FormErrors errors={sentences.length === 0 ? {} : { form: sentences.join(' ') }} />
      {data.settled !== null && (
        <TextField
          name="reason"
          label={words('putIn.settle.reason')}
          hint={words('putIn.settle.reasonHint')}
          value={reason}
          onChange={(event) => setReason(event.target.value)}
          autoComplete="off"
        />
      )}
      <MainActs>
        <Button type="submit" tone="main" busy={settle.isPending}>
          {words(data.settled === null ? 'putIn.settle.first' : 'putIn.settle.anew')}
        </Button>
        <SaveState saving={savingOf(settle)} />
      </MainActs>
    </form>
  )
}
