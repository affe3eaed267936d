'use client'

import type { DecideDeviation, Waiting } from '@curebook/contract/deviations'
import { useState, type FormEvent } from 'react'
import { Button } from '#components/button.tsx'
import { RadioGroup } from '#components/choices.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextArea, TextField } from '#components/text-field.tsx'
import { findSpare } from '#features/bench/bench.queries.ts'
import { fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useWords } from '#lib/words.ts'
import { useDecideDeviation } from './deviations.queries.ts'

type Kind = DecideDeviation['kind']

/** What can be decided: readings that wait are released instead of accepted; only a specimen is voided, only a load's left out. */
function choicesFor(waits: boolean, isOfTest: boolean): readonly Kind[] {
  if (isOfTest) return waits ? ['void', 'repeat', 'release'] : ['accept', 'void', 'repeat']
  return waits ? ['release', 'exclude'] : ['accept']
}

/**
 * Accept with a reason, void the specimen, or repeat it on a spare. Where readings wait they are released, as shown, instead
 * of accepted. What is decided stands in the report; of several designs in the report of each.
 */
export function DecideDialog({
  id: deviationId,
  text,
  insideWord = null,
  waiting,
  isOfTest = true,
  designs = 1,
  topics,
  onClose,
}: {
  id: string
  text: string
  insideWord?: string | null
  waiting: Waiting | null
  /** Of one specimen, which can be voided; else of a whole oven or bath. */
  isOfTest?: boolean
  /** In how many designs' reports it stands. */
  designs?: number
  topics: readonly string[]
  onClose: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const decide = useDecideDeviation(lab.id, deviationId, topics)
  const [id] = useState(newId)
  const [kind, setKind] = useState<Kind | ''>('')
  const [own, setOwn] = useState<Record<string, string>>({})
  const { spareTestId, ...told } = fieldErrors(decide.error)
  const errors: Record<string, string> =
    Object.keys(own).length > 0 ? own : spareTestId === undefined ? told : { ...told, spare: spareTestId }

  async function submit(event: FormEvent<HTMLFormElement>) {
    event.preventDefault()
    if (decide.isPending) return
    const form = new FormData(event.currentTarget)
    const reason = String(form.get('reason') ?? '').trim()
    const code = String(form.get('spare') ?? '').trim()
    const missing = {
      ...(kind === '' ? { kind: words('deviations.decide.noKind') } : {}),
      ...(reason === '' ? { reason: words('deviations.decide.noReason') } : {}),
      ...(kind === 'repeat' && code === '' ? { spare: words('deviations.decide.noSpare') } : {}),
    }
    setOwn(missing)
    if (kind === '' || Object.keys(missing).length > 0) return
    let spare: string | null = null
    if (kind === 'repeat') {
      const found = await findSpare(lab.id, code).catch((cause: unknown) => ({
        sentence: cause instanceof Error ? cause.message : String(cause),
      }))
      if ('sentence' in found) return setOwn({ spare: found.sentence })
      spare = found.testId
    }
    const isOnReadings = kind === 'release' || kind === 'exclude'
    const readingIds = isOnReadings && waiting !== null ? { readingIds: waiting.readingIds } : {}
    decide.mutate({ id, kind, reason, spareTestId: spare, shown: text, ...readingIds }, { onSuccess: onClose })
  }
  return (
    <Dialog title={words('deviations.decide.title')} onClose={onClose}>
      <p>{text}</p>
      {insideWord !== null && <p>{words('deviations.inside', { word: insideWord })}</p>}
      {waiting !== null && (
        <p className="caution">
          {words('deviations.waiting', { typed: waiting.typed.join(', '), sentence: waiting.sentence })}
        </p>
      )}
      <form noValidate className="stack" onSubmit={(event) => void submit(event)} aria-busy={decide.isPending}>
        <FormErrors errors={errors} />
        <RadioGroup
          name="kind"
          label={words('deviations.decide.kind')}
          error={errors.kind}
          value={kind}
          onValue={(value) => setKind(value as Kind)}
          choices={choicesFor(waiting !== null, isOfTest).map((value) => ({
            value,
            label: words(`deviations.decide.choice.${value}`),
            hint: words(`deviations.decide.hint.${value}`),
            disabled: (value === 'release' || value === 'exclude') && waiting?.mayRelease === false,
          }))}
        />
        {kind === 'repeat' && (
          <TextField
            name="spare"
            label={words('deviations.decide.spare')}
            hint={words('deviations.decide.spareHint')}
            error={errors.spare}
            autoComplete="off"
            autoCapitalize="characters"
            spellCheck={false}
          />
        )}
        <TextArea
          name="reason"
          label={words('deviations.decide.reason')}
          hint={
            designs > 1 ? words('deviations.decide.reasonShared', { designs }) : words('deviations.decide.reasonHint')
          }
          error={errors.reason}
        />
        <div className="row">
          <Button type="submit" tone={kind === 'void' || kind === 'repeat' ? 'danger' : 'main'} busy={decide.isPending}>
            {words(`deviations.decide.confirm.${kind === '' ? 'none' : kind}`)}
          </Button>
          <SaveState saving={savingOf(decide)} />
        </div>
      </form>
    </Dialog>
  )
}
