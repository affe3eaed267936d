'use client'

import type { Authorisation } from '@curebook/contract/authorisations'
import { DayField } from '#components/day-field.tsx'
import { TextArea } from '#components/text-field.tsx'
import { useWords } from '#lib/words.ts'

/** From which day, until which, on what evidence. FormData: `fromDay`, `untilDay`, `evidence`. */
export function SpanFields({
  initial,
  errors,
}: {
  initial?: Pick<Authorisation, 'fromDay' | 'untilDay' | 'evidence'>
  errors: Readonly<Record<string, string>>
}) {
  const words = useWords()
  return (
    <>
      <DayField
        name="fromDay"
        label={words('people.auth.from')}
        defaultValue={initial?.fromDay}
        error={errors.fromDay}
      />
      <DayField
        name="untilDay"
        label={words('people.auth.until')}
        hint={words('people.auth.untilHint')}
        defaultValue={initial?.untilDay ?? ''}
        error={errors.untilDay}
      />
      <TextArea
        name="evidence"
        label={words('people.auth.evidence')}
        hint={words('people.auth.evidenceHint')}
        defaultValue={initial?.evidence}
        error={errors.evidence}
      />
    </>
  )
}

/** What SpanFields put into a form, as the contract wants it. */
export function readSpan(form: FormData) {
  const until = String(form.get('untilDay'))
  return {
    fromDay: String(form.get('fromDay')),
    untilDay: until === '' ? null : until,
    evidence: String(form.get('evidence')),
  }
}
