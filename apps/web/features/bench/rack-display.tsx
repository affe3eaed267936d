'use client'

import { readTypedNumber } from '@curebook/trade/quantity/typed-number'
import { SpecimenMark, type SpecimenForm } from '#components/specimen-mark.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { say, spokenLabel, voiceOf } from '#lib/tablet/speech.ts'
import { tabletSettings } from '#lib/tablet/use-tablet-settings.ts'
import { useWords } from '#lib/words.ts'
import styles from './rack-display.module.css'

export type StoredWeight = { readonly label: string; readonly typed: string }

/** To be read from two metres, however far one scrolls: which specimen belongs on the balance, and what was stored last. */
export function RackDisplay({
  now,
  form,
  stored,
  unit,
}: {
  now: { readonly label: string; readonly code: string } | undefined
  form: SpecimenForm
  stored: StoredWeight | undefined
  unit: string | undefined
}) {
  const words = useWords()
  const format = useLaboratoryFormat()
  if (now === undefined && stored === undefined) return null
  return (
    <div className={styles.display} data-rack-display>
      {now !== undefined && (
        <p>
          <span className={styles.what}>{words('bench.rack.now')}</span>{' '}
          <strong className={`${styles.large} ${styles.now}`}>
            <SpecimenMark form={form} code={now.code} formWord={words(`bench.form.${form}`)} />
            <span>{now.label}</span>
          </strong>
        </p>
      )}
      <p role="status">
        {stored !== undefined && (
          <>
            <span className={styles.what}>{words('bench.rack.lastStored', { label: stored.label })}</span>{' '}
            <strong className={styles.large}>{format.quantity(digitsOf(stored.typed, unit), unit)}</strong>
          </>
        )}
      </p>
    </div>
  )
}

/** Says what was stored, where this tablet is set so. */
export function useSayStored(): (stored: StoredWeight) => void {
  const words = useWords()
  return ({ label, typed }) => {
    if (!tabletSettings().speech) return
    const text = words('bench.rack.spoken', { label: spokenLabel(label), value: digitsOf(typed, undefined) })
    say(text, voiceOf(window), (said) => new SpeechSynthesisUtterance(said))
  }
}

/** The number of what was typed or sent, in the unit of the field; said as it is where it is none. */
function digitsOf(typed: string, unit: string | undefined): string {
  const read = readTypedNumber(typed, { mayBeNegative: true, ...(unit === undefined ? {} : { unit }) })
  return read.ok ? read.value : typed
}
