'use client'

import { checkReading, type ReadingContext, type ReadingQuestion } from '@curebook/trade/procedure/reading-check'
import { isUnit, units } from '@curebook/trade/quantity/unit-table'
import { useEffect, useRef, useState, type FormEvent, type ReactNode } from 'react'
import { Button } from '#components/button.tsx'
import { MeasureField } from '#components/measure-field.tsx'
import { StickyActionBar } from '#components/sticky-action-bar.tsx'
import { TextField } from '#components/text-field.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { ReadingChoice } from './reading-choice.tsx'
import { useReadingLabel } from './reading-label.ts'
import type { ReadingSlot } from './reading-slots.ts'
import styles from './bench.module.css'

export type ReadingFieldProps = {
  readonly slot: ReadingSlot
  readonly context: ReadingContext
  /** Keeps half-typed text of this slot on the device: "test/step/key/repeat". */
  readonly draftAs: string
  readonly focused?: boolean
  readonly button: string
  /** Beside the main button. */
  readonly more?: ReactNode
  readonly state?: ReactNode
  /** Drawn under the field, for example the running difference. */
  readonly under?: (typed: string) => ReactNode
  /** Of the name of the field: "12-1 (7KD2)". */
  readonly of?: string
  /** A refusal of the server for what is typed. */
  readonly error?: string
  readonly onStore: (typed: string, confirmedOdd: boolean) => Promise<void>
}

const lowWindow = 520

/**
 * One reading as its declaration asks for it. Enter stores; what no instrument can show is refused beside the field, what
 * is odd is asked about once and then kept.
 */
export function ReadingField(props: ReadingFieldProps) {
  const { slot, context, draftAs, focused = true, of, onStore } = props
  const { declaration } = slot
  const words = useWords()
  const format = useLaboratoryFormat()
  const label = useReadingLabel(slot, of)
  const input = useRef<HTMLInputElement>(null)
  const keep = useRef<HTMLDivElement>(null)
  const [typed, setTyped] = useDraft(draftAs)
  const [error, setError] = useState<string>()
  const [asked, setAsked] = useState<{ readonly value: string; readonly questions: readonly ReadingQuestion[] }>()
  const [busy, setBusy] = useState(false)

  useEffect(() => {
    if (!focused) return
    input.current?.focus()
    input.current?.select()
    // Over an on-screen keyboard little is left: field, unit, echo and button are brought into it together.
    const show = () => {
      if (window.innerHeight < lowWindow) input.current?.form?.scrollIntoView({ block: 'start' })
    }
    show()
    window.addEventListener('resize', show)
    return () => window.removeEventListener('resize', show)
  }, [focused])
  useEffect(() => {
    if (asked !== undefined) keep.current?.querySelector('button')?.focus()
  }, [asked])

  async function store(text: string, confirmedOdd: boolean) {
    setBusy(true)
    try {
      await onStore(text.trim(), confirmedOdd)
      setTyped('')
      setAsked(undefined)
    } catch (cause) {
      setError(words('bench.notKept', { reason: cause instanceof Error ? cause.message : String(cause) }))
    } finally {
      setBusy(false)
    }
  }
  function submit(event: FormEvent) {
    event.preventDefault()
    if (busy) return
    const checked = checkReading(declaration, typed, context)
    setError(checked.ok ? undefined : checked.message)
    setAsked(undefined)
    if (!checked.ok) return input.current?.select()
    if (checked.questions.length > 0) setAsked({ value: checked.value, questions: checked.questions })
    else void store(typed, false)
  }

  if (declaration.kind === 'choice')
    return (
      <ReadingChoice
        legend={label}
        choices={declaration.choices ?? []}
        state={props.state}
        busy={busy}
        onChoose={(key) => store(key, false)}
      />
    )
  return (
    <form noValidate onSubmit={submit} className={styles.work} aria-busy={busy}>
      {declaration.kind === 'text' ? (
        <TextField
          ref={input}
          name="typed"
          label={label}
          size="bench"
          autoComplete="off"
          error={error ?? props.error}
          value={typed}
          onChange={(event) => change(event.target.value)}
        />
      ) : (
        <MeasureField
          ref={input}
          name="typed"
          label={label}
          quantity={declaration.label}
          unit={declaration.unit === 'count' ? undefined : declaration.unit}
          wholeNumber={declaration.kind === 'count'}
          mayBeNegative={declaration.unit === '°C' || declaration.plausible?.from.startsWith('-') === true}
          optional
          size="bench"
          enterKeyHint="done"
          error={error ?? props.error}
          value={typed}
          onValue={change}
        />
      )}
      <div className={styles.under}>{props.under?.(typed)}</div>
      {asked !== undefined && (
        <div className={`${styles.question} stack stack-tight`} role="alert" ref={keep}>
          {asked.questions.map(({ code, text }) => (
            <p key={code}>{text}</p>
          ))}
          <div className={styles.buttons}>
            <Button size="bench" tone="main" busy={busy} onClick={() => void store(typed, true)}>
              {words('bench.keep', { value: format.quantity(asked.value, declaration.unit) })}
            </Button>
            <Button
              size="bench"
              onClick={() => {
                setAsked(undefined)
                input.current?.focus()
                input.current?.select()
              }}
            >
              {words(isMass(declaration.unit) ? 'bench.weighAgain' : 'bench.readAgain')}
            </Button>
          </div>
        </div>
      )}
      <StickyActionBar state={props.state}>
        {asked === undefined && (
          <Button type="submit" tone="main" size="bench" busy={busy}>
            {props.button}
          </Button>
        )}
        {props.more}
      </StickyActionBar>
    </form>
  )

  function change(text: string) {
    setTyped(text)
    setError(undefined)
    setAsked(undefined)
  }
}

function isMass(unit: string | undefined): boolean {
  return unit !== undefined && isUnit(unit) && units[unit].dimension === 'mass'
}

/** What stands half typed in a field outlives a reload of this page. */
function useDraft(name: string): [string, (text: string) => void] {
  const storedAs = `curebook-draft-${name}`
  const [text, setText] = useState(() => sessionStorage.getItem(storedAs) ?? '')
  return [
    text,
    (next) => {
      setText(next)
      if (next === '') sessionStorage.removeItem(storedAs)
      else sessionStorage.setItem(storedAs, next)
    },
  ]
}
