'use client'

import type { Design } from '@curebook/contract/designs'
import type { EnterTrialCup, TrialCup } from '@curebook/contract/trials'
import { useEffect, useState } from 'react'
import { Button } from '#components/button.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextField } from '#components/text-field.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { withChoices } from '#features/designs/design-form-data.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { ApiProblem } from '#lib/api-problem.ts'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { bodyOf, changesRead, copyLast, draftOf, holdsAnything, isRunning, isStoredAs, recipeOf } from './cup-draft.ts'
import { type Edit, isEdited, settledEdits } from './cup-edits.ts'
import { DiscardCup } from './discard-cup.tsx'
import { CupFields } from './cup-fields.tsx'
import { CupRow } from './cup-row.tsx'
import { CupTable } from './cup-table.tsx'
import { Stopwatch } from './stopwatch.tsx'
import { useEnterCup } from './trials.queries.ts'
import { useStoredDraft } from './use-stored-draft.ts'
import styles from './trials.module.css'

/** The table with one row open: the next cup, or a stored one to be completed or corrected. The stopwatch runs meanwhile. */
export function CupForm({
  design,
  cups,
  isBase,
  use,
  sharesStand,
}: {
  design: Design
  cups: readonly TrialCup[]
  isBase: (cup: TrialCup) => boolean
  use: (cup: TrialCup) => (() => void) | undefined
  sharesStand: boolean
}) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const enter = useEnterCup(lab.id, design)
  const last = cups.at(-1)
  const next = useStoredDraft(design.id, lab.me.membershipId, recipeOf(last))
  // What was typed into one cup waits while another is open.
  const [edits, setEdits] = useState<readonly Edit[]>([])
  const [openId, setOpenId] = useState<string>()
  const opened = edits.find(({ cup }) => cup.id === openId) ?? null
  const setOpened = (edit: Edit) => {
    setEdits((now) => [...now.filter(({ cup }) => cup.id !== edit.cup.id), edit])
    setOpenId(edit.cup.id)
  }
  const leave = (id: string) => {
    setEdits((now) => now.filter(({ cup }) => cup.id !== id))
    setOpenId((now) => (now === id ? undefined : now))
  }
  // Whatever was stored without an answer shows itself in the list.
  useEffect(() => {
    const settled = settledEdits(edits, cups, newId)
    if (settled === edits) return
    const standing = settled.find(({ draft }) => !edits.some((edit) => edit.draft.id === draft.id))
    setEdits(settled)
    setOpenId((now) => (now === undefined || settled.some(({ cup }) => cup.id === now) ? now : standing?.cup.id))
  }, [edits, cups])
  const nextNumber = (last?.number ?? 0) + 1
  const number = opened?.cup.number ?? nextNumber
  function stored() {
    confirm(words('trials.stored', { number }))
    setTried(false)
    if (opened === null) next.clear(next.draft)
    else leave(opened.cup.id)
  }
  /** Something stands under the draft's id: this very cup, whose answer was lost, or another one, beside which it is new. */
  function settle(error: unknown) {
    if (!(error instanceof ApiProblem) || error.code !== 'conflict') return
    const standing = error.extra.stored as TrialCup | undefined
    if (standing === undefined) return
    if (!isStoredAs(standing, next.draft)) return next.keep({ ...next.draft, id: newId() })
    enter.reset()
    stored()
  }
  const asksReason = opened !== null && changesRead(opened.cup, opened.draft)
  // Stored with the stopwatch running, the cup would have no mix time.
  const [tried, setTried] = useState(false)
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/trials').then(({ EnterTrialCupSchema }) => EnterTrialCupSchema),
    read: () =>
      opened === null ? bodyOf(next.draft) : bodyOf(opened.draft, { id: opened.cup.id, reason: opened.reason }),
    save: {
      ...enter,
      mutate: (body: EnterTrialCup, options) =>
        enter.mutate(body, { ...options, onError: (error) => opened === null && settle(error) }),
    },
    onSaved: stored,
  })
  const stillRuns = opened === null && tried && isRunning(next.draft)
  const errors = withChoices(stillRuns ? { form: words('trials.stillRuns') } : told, {
    emulsion: words('trials.needEmulsion'),
    water: words('trials.needWater'),
  })
  const copy = () => next.keep(copyLast(next.draft, last))
  return (
    <div className={styles.work}>
      <form
        className="stack"
        noValidate
        aria-busy={enter.isPending}
        onSubmit={(event) => {
          setTried(true)
          if (opened === null && isRunning(next.draft)) event.preventDefault()
          else onSubmit(event)
        }}
      >
        <FormErrors errors={errors} />
        <CupTable>
          {cups.map((cup) =>
            opened?.cup.id === cup.id ? (
              <CupFields
                key={cup.id}
                number={cup.number}
                draft={opened.draft}
                errors={errors}
                onDraft={(draft) => setOpened({ ...opened, draft })}
              />
            ) : (
              <CupRow
                key={cup.id}
                cup={cup}
                isBase={isBase(cup)}
                onUse={use(cup)}
                sharesStand={sharesStand}
                waits={edits.some((edit) => edit.cup.id === cup.id && isEdited(edit))}
                onOpen={() => {
                  enter.reset()
                  setOpened(
                    edits.find((edit) => edit.cup.id === cup.id) ?? { cup, draft: draftOf(cup, newId()), reason: '' },
                  )
                }}
              />
            ),
          )}
          {opened === null && (
            <CupFields number={nextNumber} draft={next.draft} errors={errors} onDraft={next.keep} onCopy={copy} />
          )}
        </CupTable>
        {asksReason && (
          <TextField
            name="supersedes.reason"
            label={words('trials.reason')}
            hint={words('trials.reasonHint')}
            autoComplete="off"
            value={opened.reason}
            onChange={(event) => setOpened({ ...opened, reason: event.currentTarget.value })}
            error={errors['supersedes.reason']}
          />
        )}
        <div className="row">
          <Button type="submit" tone="main" busy={enter.isPending}>
            {words(opened === null ? 'trials.store' : 'trials.storeAgain', { number })}
          </Button>
          {opened === null ? (
            last !== undefined && (
              <Button onClick={copy} aria-keyshortcuts="=">
                {words('trials.copyLast', { number: last.number })}
              </Button>
            )
          ) : (
            <Button tone="quiet" onClick={() => leave(opened.cup.id)}>
              {words('trials.leave')}
            </Button>
          )}
          {opened === null && holdsAnything(next.draft, recipeOf(last)) && (
            <DiscardCup
              number={number}
              onDiscard={() => {
                enter.reset()
                setTried(false)
                next.clear(recipeOf(last))
              }}
            />
          )}
          <SaveState saving={savingOf(enter)} />
        </div>
        {opened === null && last !== undefined && <p className="quiet small">{words('trials.copyAbout')}</p>}
      </form>
      <Stopwatch
        number={nextNumber}
        draft={next.draft}
        onDraft={(draft) => {
          setTried(false)
          next.keep(draft)
        }}
      />
    </div>
  )
}
