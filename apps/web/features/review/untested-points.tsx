'use client'

import type { Design } from '@curebook/contract/designs'
import type { ReviewPoint } from '@curebook/contract/review'
import { useRef, useState, type FormEvent, type ReactNode } from 'react'
import { Button } from '#components/button.tsx'
import { Checkbox } from '#components/choices.tsx'
import { FieldError } from '#components/field-frame.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { TextField } from '#components/text-field.tsx'
import { fieldErrors } from '#lib/api-problem.ts'
import { checkForm } from '#lib/checked.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useWords } from '#lib/words.ts'
import { useAcknowledgeEach } from './review.queries.ts'
import type { Fate } from './settle-each.ts'
import styles from './review.module.css'

/**
 * What was not tested and waits for a word: several can be chosen and settled with one, which is kept for each of them.
 * What became of each is told; what was refused stays chosen, with why. A single point stands as any other does.
 */
export function UntestedPoints({
  design,
  points,
  alone,
}: {
  design: Design
  points: readonly ReviewPoint[]
  alone: (point: ReviewPoint) => ReactNode
}) {
  const words = useWords()
  const lab = useLaboratory()
  const acknowledge = useAcknowledgeEach(lab.id, design)
  const summary = useRef<HTMLParagraphElement>(null)
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set())
  const [fates, setFates] = useState<readonly Fate[]>([])
  const [errors, setErrors] = useState<Record<string, string>>({})
  const picked = points.filter(({ key }) => chosen.has(key))
  const refusalOf = (key: string) => fates.find((fate) => fate.key === key)?.refusal ?? undefined

  async function submit(form: HTMLFormElement) {
    const word = String(new FormData(form).get('word'))
    const schema = () => import('@curebook/contract/review').then(({ AcknowledgeSchema }) => AcknowledgeSchema)
    const checked = await checkForm(schema, { id: newId(), pointKey: picked[0]?.key ?? '', word })
    const found = {
      ...(picked.length === 0 ? { points: words('review.chooseOne') } : {}),
      ...(checked.success ? {} : fieldErrors(checked.error)),
    }
    setErrors(found)
    if (!checked.success || picked.length === 0) return
    setFates([])
    const onFate = (fate: Fate) => {
      setFates((before) => [...before, fate])
      if (fate.refusal === null) setChosen((before) => new Set([...before].filter((key) => key !== fate.key)))
    }
    const keys = picked.map(({ key }) => key)
    acknowledge.mutate({ keys, word: checked.data.word, onFate }, { onSettled: () => summary.current?.focus() })
  }
  const onSubmit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault()
    if (!acknowledge.isPending) void submit(event.currentTarget)
  }

  if (points.length === 0 && fates.length === 0) return null
  if (points.length === 1 && fates.length === 0) return points.map(alone)
  return (
    <li className={styles.point}>
      <p ref={summary} tabIndex={-1} role="status" className={fates.length === 0 ? 'sr-only' : 'strong'}>
        {fates.length > 0 &&
          words('review.fates', {
            settled: fates.filter(({ refusal }) => refusal === null).length,
            refused: fates.filter(({ refusal }) => refusal !== null).length,
          })}
      </p>
      {points.length > 0 && (
        <form className={styles.besides} noValidate onSubmit={onSubmit} aria-busy={acknowledge.isPending}>
          <div className="stack stack-tight">
            <div className="row">
              <StatusMark status="open">{words('review.waits')}</StatusMark>
              <span className="quiet small">{words('review.kind.not-tested')}</span>
            </div>
            <p>{words('review.untested', { count: points.length })}</p>
            <fieldset className={styles.choices} aria-label={words('review.untestedPoints')}>
              {errors.points !== undefined && picked.length === 0 && <FieldError error={errors.points} />}
              <Checkbox
                name="all"
                label={<span className="strong">{words('review.chooseAllUntested')}</span>}
                checked={picked.length === points.length}
                onChange={(event) =>
                  setChosen(new Set(event.currentTarget.checked ? points.map(({ key }) => key) : []))
                }
              />
              <ul className="plain-list">
                {points.map(({ key, sentence }) => (
                  <li key={key} data-point={key}>
                    <Checkbox
                      name="points"
                      value={key}
                      label={sentence}
                      error={refusalOf(key)}
                      checked={chosen.has(key)}
                      onChange={() => setChosen(toggled(chosen, key))}
                    />
                  </li>
                ))}
              </ul>
            </fieldset>
          </div>
          <div className={styles.word}>
            <TextField
              name="word"
              label={
                <>
                  {words('review.word')} <span className="quiet">{words('review.wordForChosen')}</span>
                </>
              }
              autoComplete="off"
              error={errors.word}
            />
            <Button type="submit" busy={acknowledge.isPending}>
              {words('review.settleSeveral', { count: picked.length })}
            </Button>
          </div>
        </form>
      )}
    </li>
  )
}

function toggled(chosen: ReadonlySet<string>, key: string): ReadonlySet<string> {
  const next = new Set(chosen)
  if (!next.delete(key)) next.add(key)
  return next
}
