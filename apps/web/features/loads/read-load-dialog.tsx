'use client'

import type { Load, Ovens } from '@curebook/contract/loads'
import { useState, type FormEvent } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { MainActs } from '#components/main-acts.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { Select } from '#components/select.tsx'
import { TextField } from '#components/text-field.tsx'
import { EventTimeField } from '#features/bench/event-time-field.tsx'
import { InstrumentField } from '#features/bench/instrument-field.tsx'
import { useInstrument } from '#features/bench/remembered-instrument.ts'
import { useEventTime } from '#features/bench/use-event-time.ts'
import { useSending } from '#features/bench/use-sending.ts'
import { fieldErrors } from '#lib/api-problem.ts'
import { useWords } from '#lib/words.ts'
import { checkChoices } from './check-choice.ts'
import { loadReadingFault } from './load-reading-fault.ts'
import { useReadLoad } from './loads.queries.ts'

/** A reading of a load that stands, and may be put right. */
export type Corrected = Load['temperatures'][number] & {
  readonly what: 'temperature' | 'warm-mass'
  readonly testId: string | null
  /** The check specimen in words. */
  readonly name: string
}

/**
 * A temperature of the load, or a check specimen weighed warm: one reading, as typed, at its own time. With `corrects` it puts
 * a slip right: the time stays, the first stays on record.
 */
export function ReadLoadDialog({
  load,
  name,
  what,
  corrects,
  readers,
  onClose,
}: {
  load: Load
  name: string
  what: 'temperature' | 'warm-mass'
  corrects?: Corrected
  readers: Ovens['readers']
  onClose: () => void
}) {
  const words = useWords()
  const time = useEventTime()
  const read = useReadLoad(load.id)
  const sending = useSending(time, read)
  const kind = what === 'temperature' ? 'thermometer' : 'balance'
  const fitting = readers.filter((one) => one.kind === kind)
  const { instrument, choose } = useInstrument(kind, fitting)
  const [fault, setFault] = useState<string>()
  const [reasonless, setReasonless] = useState(false)
  const errors: Record<string, string> = {
    ...fieldErrors(read.error),
    ...(fault === undefined ? {} : { typed: fault }),
    ...(reasonless ? { reason: words('loads.needReason') } : {}),
  }
  function submit(event: FormEvent<HTMLFormElement>) {
    event.preventDefault()
    if (read.isPending) return
    const form = new FormData(event.currentTarget)
    const typed = String(form.get('typed') ?? '').trim()
    const wrong = typed === '' ? words(`loads.need.${what}`) : loadReadingFault(what, typed)
    setFault(wrong)
    if (wrong !== undefined) return
    const testId = corrects ? corrects.testId : what === 'warm-mass' ? String(form.get('testId')) : null
    const supersedes = corrects ? { id: corrects.id, reason: String(form.get('reason') ?? '').trim() } : null
    setReasonless(supersedes?.reason === '')
    if (supersedes?.reason === '') return
    const taken = sending.take()
    if (taken === undefined) return
    const specimen = load.specimens.find((one) => one.testId === testId)
    const of = corrects?.name ?? (specimen && words('loads.named', { label: specimen.label, code: specimen.code }))
    const label =
      what === 'temperature'
        ? words('loads.entry.temperature', { name, typed })
        : words('loads.entry.warm-mass', { name: of ?? name, typed })
    read.mutate(
      {
        label,
        body: {
          id: sending.id('reading'),
          key: what,
          testId,
          typed,
          instrumentId: instrument?.id ?? null,
          time: taken.time,
          supersedes,
        },
      },
      { onSuccess: onClose },
    )
  }
  return (
    <Dialog
      title={
        corrects
          ? words('loads.correctOf', { name })
          : words(what === 'temperature' ? 'loads.readTemperatureOf' : 'loads.weighWarmOf', { name })
      }
      onClose={onClose}
    >
      <form className="stack" noValidate onSubmit={submit} aria-busy={read.isPending}>
        <FormErrors errors={errors} />
        {corrects && (
          <p>{words('loads.reading', { name: corrects.name, typed: corrects.typed, unit: corrects.unit })}</p>
        )}
        {what === 'warm-mass' && corrects === undefined && (
          <>
            <p>{words('loads.warmAbout')}</p>
            <Select
              name="testId"
              label={words('loads.checkSpecimen')}
              options={checkChoices(load).map(({ testId, label, code }) => ({
                value: testId,
                label: words('loads.named', { label, code }),
              }))}
              error={errors.testId}
            />
          </>
        )}
        <TextField
          name="typed"
          label={words(`loads.typed.${what}`)}
          inputMode="decimal"
          autoComplete="off"
          size="bench"
          error={errors.typed}
        />
        {corrects === undefined ? (
          <>
            <InstrumentField fitting={fitting} chosen={instrument} needed={false} onChoose={choose} />
            <EventTimeField time={time} />
          </>
        ) : (
          <TextField
            name="reason"
            label={words('loads.reason')}
            hint={words('loads.reasonHint')}
            autoComplete="off"
            error={errors.reason}
          />
        )}
        <MainActs>
          <Button type="submit" tone="main" size="bench" busy={read.isPending}>
            {words('loads.keep')}
          </Button>
          <SaveState saving={savingOf(read)} />
        </MainActs>
      </form>
    </Dialog>
  )
}
