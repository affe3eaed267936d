'use client'

import type { TestView } from '@curebook/contract/bench'
import { useState, type FormEvent } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextArea, TextField } from '#components/text-field.tsx'
import { fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { findSpare, useReplaceTest, useVoidTest } from './bench.queries.ts'
import { EventTimeField } from './event-time-field.tsx'
import { useEventTime } from './use-event-time.ts'
import { useSending } from './use-sending.ts'
import styles from './bench.module.css'

/** Void a specimen; put a spare in the place of a voided one. Each asks for its reason in a second place. */
export function TestEnd({ view, name }: { view: TestView; name: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const [open, setOpen] = useState<'void' | 'replace'>()
  const voided = view.state === 'void'
  const mayVoid = lab.may('test:void') && !voided && view.state !== 'replaced'
  const mayReplace = lab.may('test:replace') && voided
  if (!mayVoid && !mayReplace) return null
  return (
    <section className={styles.buttons} aria-label={words('bench.end.title')}>
      {mayVoid && (
        <Button size="bench" onClick={() => setOpen('void')}>
          {words('bench.void.open', { name })}
        </Button>
      )}
      {mayReplace && (
        <Button size="bench" onClick={() => setOpen('replace')}>
          {words('bench.replace.open', { name })}
        </Button>
      )}
      {open === 'void' && <VoidDialog view={view} name={name} onClose={() => setOpen(undefined)} />}
      {open === 'replace' && <ReplaceDialog view={view} name={name} onClose={() => setOpen(undefined)} />}
    </section>
  )
}

function VoidDialog({ view, name, onClose }: { view: TestView; name: string; onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const time = useEventTime()
  const save = useVoidTest(lab.id, view.id)
  const sending = useSending(time, save)
  const [empty, setEmpty] = useState(false)
  const errors = empty ? { reason: words('bench.void.noReason') } : fieldErrors(save.error)
  function submit(event: FormEvent<HTMLFormElement>) {
    event.preventDefault()
    const reason = String(new FormData(event.currentTarget).get('reason') ?? '').trim()
    const taken = sending.take()
    setEmpty(reason === '')
    if (reason === '' || taken === undefined || save.isPending) return
    save.mutate({ id: sending.id('void'), reason, time: taken.time }, { onSuccess: onClose })
  }
  return (
    <Dialog title={words('bench.void.title', { name })} onClose={onClose}>
      <form noValidate onSubmit={submit} className={`stack ${styles.bench}`} aria-busy={save.isPending}>
        <FormErrors errors={errors} />
        <p>{words('bench.void.about')}</p>
        <TextArea name="reason" label={words('bench.void.reason')} error={errors.reason} />
        <EventTimeField time={time} />
        <div className="row">
          <Button type="submit" tone="danger" size="bench" busy={save.isPending}>
            {words('bench.void.confirm', { name })}
          </Button>
          <SaveState saving={savingOf(save)} />
        </div>
      </form>
    </Dialog>
  )
}

function ReplaceDialog({ view, name, onClose }: { view: TestView; name: string; onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const save = useReplaceTest(lab.id, view.id)
  const [own, setOwn] = useState<Record<string, string>>({})
  const errors = Object.keys(own).length > 0 ? own : spareError(fieldErrors(save.error))
  async function submit(event: FormEvent<HTMLFormElement>) {
    event.preventDefault()
    const form = new FormData(event.currentTarget)
    const code = String(form.get('spare') ?? '').trim()
    const reason = String(form.get('reason') ?? '').trim()
    const missing = {
      ...(code === '' ? { spare: words('bench.replace.noSpare') } : {}),
      ...(reason === '' ? { reason: words('bench.replace.noReason') } : {}),
    }
    setOwn(missing)
    if (Object.keys(missing).length > 0 || save.isPending) return
    const found = await findSpare(lab.id, code).catch((cause: unknown) => {
      setOwn({ spare: cause instanceof Error ? cause.message : String(cause) })
    })
    if (found === undefined) return
    if ('sentence' in found) return setOwn({ spare: found.sentence })
    save.mutate({ spareTestId: found.testId, reason }, { onSuccess: onClose })
  }
  return (
    <Dialog title={words('bench.replace.title', { name })} onClose={onClose}>
      <form
        noValidate
        onSubmit={(event) => void submit(event)}
        className={`stack ${styles.bench}`}
        aria-busy={save.isPending}
      >
        <FormErrors errors={errors} />
        <TextField
          name="spare"
          label={words('bench.replace.spare')}
          hint={words('bench.replace.spareHint')}
          error={errors.spare}
          autoComplete="off"
          autoCapitalize="characters"
          spellCheck={false}
        />
        <TextArea name="reason" label={words('bench.replace.reason')} error={errors.reason} />
        <div className="row">
          <Button type="submit" tone="main" size="bench" busy={save.isPending}>
            {words('bench.replace.confirm', { name })}
          </Button>
          <SaveState saving={savingOf(save)} />
        </div>
      </form>
    </Dialog>
  )
}

/** The API speaks of the spare's test, the form of its code. */
function spareError({ spareTestId, ...errors }: Record<string, string>): Record<string, string> {
  return spareTestId === undefined ? errors : { ...errors, spare: spareTestId }
}
