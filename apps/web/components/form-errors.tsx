'use client'

import { useEffect, useLayoutEffect, useRef, useState } from 'react'
import { useWords } from '#lib/words.ts'
import { usePlainSentence } from './plain-sentence.ts'
import { toldAlone, type FieldName } from './told-alone.ts'
import styles from './form-errors.module.css'

/**
 * Everything that keeps a form from being saved, on top of it, taking focus each time a save failed; each line goes to its
 * field. They stand in the order of the fields, whatever order they were found in. `errors` comes from `fieldErrors(error)`;
 * give it inside the form it speaks of. Fields of one row of many stand in an element with `data-part`, the row's name, which
 * is then told with them.
 */
export function FormErrors({ errors }: { errors: Readonly<Record<string, string>> }) {
  const words = useWords()
  const plainly = usePlainSentence()
  const summary = useRef<HTMLDivElement>(null)
  const [fields, setFields] = useState<readonly FieldName[]>([])
  const text = JSON.stringify(errors)
  useLayoutEffect(() => {
    const found = summary.current?.closest('form, [data-form]')?.querySelectorAll<HTMLElement>('[data-field]') ?? []
    setFields(
      [...found].map((field) => ({
        path: field.dataset.field ?? '',
        part: field.closest<HTMLElement>('[data-part]')?.dataset.part,
        label: field.querySelector('label')?.textContent ?? undefined,
      })),
    )
  }, [text])
  // What belongs to no field stands last, as it came.
  const placeOf = (path: string) => {
    const at = fields.findIndex((field) => field.path === path)
    return at < 0 ? fields.length : at
  }
  const entries = Object.entries(errors).sort(([one], [other]) => placeOf(one) - placeOf(other))
  useEffect(() => {
    if (text !== '{}') summary.current?.focus()
  }, [text])
  if (entries.length === 0) return null
  const goTo = (path: string) => {
    const field = summary.current?.closest('form, [data-form]')?.querySelector(`[data-field="${CSS.escape(path)}"]`)
    field?.querySelector<HTMLElement>('input, select, textarea, button')?.focus()
  }
  return (
    <div className={styles.summary} ref={summary} tabIndex={-1} role="alert">
      <h2>{words('common.toPutRight', { count: entries.length })}</h2>
      <ul className="plain-list">
        {entries.map(([path, message]) => (
          <li key={path}>
            {path === 'form' ? (
              plainly(message)
            ) : (
              <button type="button" onClick={() => goTo(path)}>
                {toldAlone(
                  plainly(message),
                  fields.find((field) => field.path === path),
                  plainly(message) !== message,
                )}
              </button>
            )}
          </li>
        ))}
      </ul>
    </div>
  )
}
