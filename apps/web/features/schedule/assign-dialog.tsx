'use client'

import type { BulkOutcome, Schedule, ScheduleRow } from '@curebook/contract/schedule'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { Select } from '#components/select.tsx'
import { TextField } from '#components/text-field.tsx'
import { fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useWords } from '#lib/words.ts'
import { AssignConflicts } from './assign-conflicts.tsx'
import { AssignOutcome } from './assign-outcome.tsx'
import { loadOf } from './person-load.ts'
import { scheduleQueries, useAssign } from './schedule.queries.ts'
import { hasNextAct, needReason, nobody, type Clock } from './schedule-view.ts'

/** Gives one or many tests to a person in one confirmation, with what speaks against it beforehand and each row's outcome after. */
export function AssignDialog({
  ids,
  rows: all,
  people,
  clock,
  onAct,
  onRefused,
  onClose,
}: {
  ids: readonly string[]
  rows: readonly ScheduleRow[]
  people: Schedule['people']
  clock: Clock
  onAct: () => void
  onRefused: (ids: readonly string[]) => void
  onClose: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const assign = useAssign(lab.id)
  // The rows as they were chosen: what changes behind the dialog must not change what is being confirmed.
  const [rows] = useState(() => all.filter(({ testId }) => ids.includes(testId)))
  const [choice, setChoice] = useState('')
  const [reason, setReason] = useState('')
  const [missing, setMissing] = useState<Readonly<Record<string, string>>>({})
  const to = choice === nobody ? null : choice
  const name = people.find(({ membershipId }) => membershipId === to)?.name ?? ''
  const check = useQuery(
    scheduleQueries.check(lab.id, choice === '' ? null : { testIds: rows.map(({ testId }) => testId), to }),
  )
  // It is confirmed with what speaks against it in sight; where that cannot be asked, the assignment itself still judges.
  const checking = choice !== '' && check.isPending
  const needing = choice === '' ? [] : needReason(rows, to)
  // Another choice is another act: a key kept over it would be refused.
  const [key, setKey] = useState(newId)
  const count = rows.length
  function submit(event: React.FormEvent) {
    event.preventDefault()
    const wanted: Record<string, string> = {}
    if (choice === '') wanted.to = words('schedule.needPerson')
    if (needing.length > 0 && reason.trim() === '') wanted.reason = words('schedule.needReason')
    setMissing(wanted)
    if (Object.keys(wanted).length > 0 || assign.isPending || checking) return
    onAct()
    const body = {
      testIds: rows.map(({ testId }) => testId),
      to,
      ...(needing.length > 0 ? { reason: reason.trim() } : {}),
    }
    assign.mutate({ body, key }, { onSuccess: (outcome) => onRefused(refusedOf(outcome)) })
  }
  const title = words('schedule.giveTitle', { count })
  if (assign.data !== undefined)
    return (
      <Dialog title={title} onClose={onClose} wide>
        <AssignOutcome rows={rows} outcome={assign.data} name={to === null ? null : name} onClose={onClose} />
      </Dialog>
    )
  const errors = { ...fieldErrors(assign.error), ...missing }
  return (
    <Dialog title={title} onClose={onClose} wide>
      <form className="stack" noValidate onSubmit={submit} aria-busy={assign.isPending}>
        <FormErrors errors={errors} />
        <p>{rowsInWords(rows, words)}</p>
        <Select
          name="to"
          label={words('schedule.giveTo')}
          prompt={words('schedule.choosePerson')}
          value={choice}
          onChange={(event) => {
            setChoice(event.target.value)
            setKey(newId())
            setMissing({})
          }}
          options={[
            ...people.map((person) => ({
              value: person.membershipId,
              label: words('schedule.personOption', { name: person.name, count: person.assigned }),
            })),
            { value: nobody, label: words('schedule.takeBackOption') },
          ]}
          error={errors.to}
        />
        {to !== null && choice !== '' && <HasAlready rows={rows} all={all} to={to} name={name} clock={clock} />}
        {choice !== '' && <AssignConflicts check={check} name={to === null ? null : name} />}
        {needing.length > 0 && (
          <TextField
            name="reason"
            label={words('schedule.reason', { count: needing.length })}
            hint={words('schedule.reasonHint', {
              tests: needing.map(({ label, assignee }) => `${label} (${assignee?.name ?? ''})`).join(', '),
            })}
            value={reason}
            onChange={(event) => {
              setReason(event.target.value)
              setKey(newId())
              setMissing({})
            }}
            autoComplete="off"
            error={errors.reason}
          />
        )}
        <p className="quiet small">{words('schedule.batchToo')}</p>
        <div className="row">
          <Button type="submit" tone="main" busy={assign.isPending || checking}>
            {choice === nobody
              ? words('schedule.takeBack', { count })
              : name === ''
                ? words('schedule.giveCount', { count })
                : words('schedule.giveCountTo', { count, name })}
          </Button>
          <SaveState saving={savingOf(assign)} />
        </div>
      </form>
    </Dialog>
  )
}

/** What the person has beside what they would be given. */
function HasAlready({
  rows,
  all,
  to,
  name,
  clock,
}: {
  rows: readonly ScheduleRow[]
  all: readonly ScheduleRow[]
  to: string
  name: string
  clock: Clock
}) {
  const words = useWords()
  const given = new Set(rows.map(({ testId }) => testId))
  const theirs = all.filter((row) => row.assignee?.membershipId === to && !given.has(row.testId) && hasNextAct(row))
  const load = loadOf(theirs, clock)
  return <p>{words('schedule.hasAlready', { name, count: load.tests, windows: load.rounds.length })}</p>
}

function rowsInWords(rows: readonly ScheduleRow[], words: ReturnType<typeof useWords>): string {
  const steps = new Map<string, number>()
  for (const { stepTitle } of rows) steps.set(stepTitle, (steps.get(stepTitle) ?? 0) + 1)
  return [...steps].map(([step, count]) => words('schedule.stepCount', { step, count })).join('; ')
}

function refusedOf({ rows }: BulkOutcome): readonly string[] {
  return rows.filter(({ outcome }) => outcome === 'refused').map(({ id }) => id)
}
