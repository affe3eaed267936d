'use client'

import type { TestView } from '@curebook/contract/bench'
import type { Observation, PostObservation } from '@curebook/contract/observations'
import { observationsOfForm } from '@curebook/contract/observation-words'
import type { StepDeclaration } from '@curebook/trade/procedure/declaration'
import { useMutation } from '@tanstack/react-query'
import { useRef, useState } from 'react'
import { Button } from '#components/button.tsx'
import { RadioGroup } from '#components/choices.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { Select } from '#components/select.tsx'
import { TextArea, TextField } from '#components/text-field.tsx'
import { topicsOfTest } from '#features/bench/bench.queries.ts'
import { EventTimeField } from '#features/bench/event-time-field.tsx'
import { useEventTime } from '#features/bench/use-event-time.ts'
import { useSending } from '#features/bench/use-sending.ts'
import { labPath } from '#lib/api-client.ts'
import { inFieldSentences } from '#lib/field-sentences.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import type { NewOutboxEntry } from '#lib/outbox/outbox-entry.ts'
import { useOutbox } from '#lib/outbox/outbox-provider.tsx'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { PhotoField } from './photo-field.tsx'
import { photoEntry } from './photo-entry.ts'

/** What is seen, in a word, with words of one's own and a photograph. It goes by the device's store, network or not. */
export function ObservationForm({
  view,
  stepKey,
  name,
  supersedes,
  onStored,
}: {
  view: TestView
  stepKey: string
  name: string
  supersedes?: Observation
  onStored: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const outbox = useOutbox()
  const time = useEventTime()
  const [file, setFile] = useState<File | null>(null)
  /** The picture as it was handed to the device's store: sent again, it is the same one. */
  const photographed = useRef<{ readonly file: File; readonly entry: NewOutboxEntry }>(undefined)
  const steps = view.method.steps as readonly StepDeclaration[]
  const queue = useMutation({
    // Written to the device first: sending goes on by itself.
    networkMode: 'always',
    mutationFn: async (body: PostObservation) => {
      // Behind nothing that is weighed: a picture that is refused holds no reading back.
      const lane = `${view.id}/seen`
      const label = words('observations.entry', { name, seen: words(`observations.seen.${body.choice}`) })
      if (file !== null && photographed.current?.file !== file) {
        const entry = await photoEntry(lab.id, { file, lane, label: words('observations.photoOf', { name }) })
        photographed.current = { file, entry }
      }
      const photo = file === null ? undefined : photographed.current?.entry
      if (photo !== undefined) await outbox.put(photo)
      await outbox.put({
        id: body.id,
        lane,
        path: labPath(lab.id, 'tests', view.id, 'observations'),
        body: { ...body, attachmentId: photo?.id ?? supersedes?.attachment?.id ?? null },
        label,
        topics: topicsOfTest(view.id),
      })
    },
  })
  const sending = useSending(time, queue)
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/observations').then(({ PostObservationSchema }) => PostObservationSchema),
    read: (form) => ({
      time: sending.take()?.time,
      id: sending.id('observation'),
      stepKey: String(form.get('stepKey') ?? stepKey),
      choice: form.get('choice') ?? undefined,
      note: String(form.get('note')).trim() || null,
      ...(supersedes === undefined
        ? {}
        : { supersedes: { id: supersedes.id, reason: String(form.get('supersedes.reason')) } }),
    }),
    save: queue,
    onSaved: onStored,
  })
  const errors = inFieldSentences(told, { time: words('bench.when.incomplete') })
  return (
    <form className="panel stack" noValidate onSubmit={onSubmit} aria-busy={queue.isPending}>
      <FormErrors errors={errors} />
      {queue.isError && file !== null && <p role="alert">{words('observations.noPicture')}</p>}
      {supersedes === undefined && (
        <Select
          name="stepKey"
          label={words('observations.step')}
          options={steps.map(({ key, title }) => ({ value: key, label: title }))}
          defaultValue={stepKey}
        />
      )}
      <RadioGroup
        name="choice"
        label={words('observations.what')}
        error={errors.choice}
        defaultValue={supersedes?.choice}
        choices={(observationsOfForm[view.item.form] ?? ['other']).map((value) => ({
          value,
          label: words(`observations.seen.${value}`),
        }))}
      />
      <TextArea
        name="note"
        label={words('observations.note')}
        hint={words('observations.noteHint')}
        error={errors.note}
        rows={2}
        defaultValue={supersedes?.note ?? ''}
      />
      <PhotoField
        name="attachmentId"
        label={words('observations.photo')}
        hint={words('observations.photoHint')}
        error={errors.attachmentId}
        onFile={setFile}
      />
      <EventTimeField time={time} />
      {supersedes !== undefined && (
        <TextField
          name="supersedes.reason"
          label={words('observations.reason')}
          autoComplete="off"
          error={errors['supersedes.reason'] ?? errors.supersedes}
        />
      )}
      <div className="row">
        <Button type="submit" tone="main" size="bench" busy={queue.isPending}>
          {words('observations.store')}
        </Button>
        <Button onClick={onStored}>{words('observations.leave')}</Button>
        <SaveState saving={savingOf(queue)} />
      </div>
    </form>
  )
}
