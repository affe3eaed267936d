'use client'

import { useEffect, useLayoutEffect, useRef, useState } from 'react'
import { useWords } from '#lib/words.ts'
import styles from './form-errors.module.css'

/**
 * Everything that keeps a form from being saved, on top of it, taking focus each time a save failed; each line goes to its
 * field. They stand in the order of the fields, whatever order they were found in. `errors` comes from `fieldErrors(error)`; give it inside the form it speaks of.
 */
export function FormErrors({ errors }: { errors: Readonly<Record<string, string>> }) {
  const words = useWords()
  const summary = useRef<HTMLDivElement>(null)
  const [places, setPlaces] = useState<readonly string[]>([])
  const text = JSON.stringify(errors)
  useLayoutEffect(() => {
    const fields = summary.current?.closest('form, [data-form]')?.querySelectorAll<HTMLElement>('[data-field]') ?? []
    setPlaces([...fields].map(({ dataset }) => dataset.field ?? ''))
  }, [text])
  // What belongs to no field stands last, as it came.
  const placeOf = (path: string) => (places.includes(path) ? places.indexOf(path) : places.length)
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
              message
            ) : (
              <button type="button" onClick={() => goTo(path)}>
                {message}
              </button>
            )}
          </li>
        ))}
      </ul>
    </div>
  )
}
