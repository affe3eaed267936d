'use client'

import { checkReading, type ReadingContext } from '@curebook/trade/procedure/reading-check'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'
import { useEffect, useRef, useState, type ReactNode } from 'react'
import { Button } from '#components/button.tsx'
import { MeasureField } from '#components/measure-field.tsx'
import { StickyActionBar } from '#components/sticky-action-bar.tsx'
import { TextField } from '#components/text-field.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { tellSignal } from '#lib/tablet/tell-signal.ts'
import { useWords } from '#lib/words.ts'
import { BalanceButton } from './balance-button.tsx'
import type { CodeOutcome } from './code-field.tsx'
import type { BenchInstrument } from './instrument-choice.ts'
import { ReadingChoice } from './reading-choice.tsx'
import { openReadingDraft } from './reading-draft.ts'
import { useReadingLabel } from './reading-label.ts'
import type { ReadingSlot } from './reading-slots.ts'
import { isMass } from './target-line.tsx'
import { useKeyBurst } from './use-key-burst.ts'
import { balanceLink, useSentWeight } from './use-sent-weight.ts'
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
  /** What else is asked about before it is kept, beside what the declaration asks. */
  readonly ask?: (value: string) => readonly string[]
  /** The balance that is chosen: what it sends goes into this field. */
  readonly instrument?: BenchInstrument | undefined
  /** Whether what was typed or scanned is a code; where it is one, what came of it. */
  readonly onCode?: (typed: string) => CodeOutcome | undefined
  /** `sent`: an instrument wrote it, nobody typed it. */
  readonly onStore: (typed: string, confirmedOdd: boolean, sent: boolean) => Promise<void>
}

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
  const [asked, setAsked] = useState<{ readonly value: string; readonly questions: readonly string[] }>()
  const [busy, setBusy] = useState(false)
  /** What an instrument wrote into the field: by its line, or like a keyboard. */
  const sent = useRef<string>(undefined)
  const isNumber = declaration.kind === 'number' || declaration.kind === 'count'
  const { told } = useSentWeight({
    field: input,
    instrument: props.instrument,
    on: focused && isNumber && !busy,
    typed,
    put: (text) => {
      sent.current = text
      change(text)
    },
    store: judge,
  })
  useKeyBurst(
    input,
    focused && isNumber
      ? (burst, here) => {
          if (readTypedNumber(burst, { unit: declaration.unit, mayBeNegative: true }).ok) sent.current = burst
          if (here || busy) return
          change(burst)
          judge(burst)
          input.current?.focus()
        }
      : undefined,
  )

  useEffect(() => {
    if (!focused) return
    input.current?.focus()
    input.current?.select()
  }, [focused])
  useEffect(() => {
    if (asked !== undefined) keep.current?.querySelector('button')?.focus()
  }, [asked])

  async function store(text: string, confirmedOdd: boolean) {
    setBusy(true)
    try {
      await onStore(text.trim(), confirmedOdd, text.trim() === sent.current?.trim())
      balanceLink.stored(text.trim())
      setTyped('')
      setAsked(undefined)
    } catch (cause) {
      setError(words('bench.notKept', { reason: cause instanceof Error ? cause.message : String(cause) }))
    } finally {
      setBusy(false)
    }
  }
  function judge(text: string) {
    if (busy) return
    const code = props.onCode?.(text)
    if (code !== undefined) {
      tellSignal('found' in code ? 'found' : 'wrong')
      if ('found' in code) setTyped('')
      else setError(code.wrong)
      return
    }
    const checked = checkReading(declaration, text, context)
    setError(checked.ok ? undefined : checked.message)
    setAsked(undefined)
    if (!checked.ok) return input.current?.select()
    const questions = [...checked.questions.map(({ text }) => text), ...(props.ask?.(checked.value) ?? [])]
    if (questions.length > 0) setAsked({ value: checked.value, questions })
    else void store(text, false)
  }

  if (declaration.kind === 'choice')
    return (
      <ReadingChoice
        legend={label}
        choices={declaration.choices ?? []}
        state={props.state}
        busy={busy}
        focused={focused}
        onChoose={(key) => store(key, false)}
      />
    )
  return (
    <form
      noValidate
      className={styles.work}
      aria-busy={busy}
      onSubmit={(event) => {
        event.preventDefault()
        judge(typed)
      }}
    >
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
      {focused && isNumber && props.instrument !== undefined && (
        <BalanceButton instrument={props.instrument} told={told} />
      )}
      {asked !== undefined && (
        <div className={`${styles.question} stack stack-tight`} role="alert" ref={keep}>
          {asked.questions.map((text) => (
            <p key={text}>{text}</p>
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

/** What stands half typed in a field outlives a reload of this page. */
function useDraft(name: string): [string, (text: string) => void] {
  const { me } = useLaboratory()
  const draft = openReadingDraft(() => sessionStorage, me.membershipId, name)
  const [text, setText] = useState(draft.typed)
  return [
    text,
    (next) => {
      setText(next)
      draft.keep(next)
    },
  ]
}
