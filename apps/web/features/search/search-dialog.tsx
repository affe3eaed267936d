'use client'

import { useQuery } from '@tanstack/react-query'
import { useRouter } from 'next/navigation'
import { useCallback, useEffect, useState, type KeyboardEvent } from 'react'
import { Dialog } from '#components/dialog.tsx'
import { ErrorState } from '#components/error-state.tsx'
import { TextField } from '#components/text-field.tsx'
import { useOpenScreens } from '#features/shell/navigation.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { acts, choicesOf, nextPlace, type SearchChoice } from './search-choices.ts'
import { searchQueries } from './search.queries.ts'
import styles from './search.module.css'

/** Between two signs nobody asks the server. Own setting. */
const pauseMs = 150

/** Specimens, samples, projects, designs, people, screens and acts by what is typed; Enter opens the marked one. */
export function SearchDialog({ onClose }: { onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const router = useRouter()
  const [typed, setTyped] = useState('')
  const [at, setAt] = useState(0)
  const [wanting, setWanting] = useState(false)
  const asked = usePaused(typed.trim())
  const query = useQuery(searchQueries.find(lab.id, asked))
  const going = [
    ...useOpenScreens().map(({ key, path }) => ({ path: path as string, label: words(`shell.screen.${key}`) })),
    ...acts
      .filter(({ needs }) => lab.may(needs))
      .map(({ key, path }) => ({ path: path as string, label: words(`search.act.${key}`) })),
  ]
  const found = asked.length >= 2 ? (query.data?.items ?? []) : []
  const choices = typed.trim() === '' ? [] : choicesOf(typed, found, going)
  const place = nextPlace('', at, choices.length)
  const marked = choices[place]
  const { short } = lab
  const go = useCallback(
    (choice: SearchChoice | undefined) => {
      if (choice === undefined) return
      router.push(`/l/${short}/${choice.path}`)
      onClose()
    },
    [router, short, onClose],
  )
  const isOver = typed.trim() === asked && !query.isFetching
  // Enter right after a scanned code waits for the answer to that code; the list may still be of what stood there before.
  useEffect(() => {
    if (!wanting || !isOver) return
    setWanting(false)
    go(marked)
  }, [wanting, isOver, marked, go])
  function press(event: KeyboardEvent) {
    if (event.key === 'Enter') {
      event.preventDefault()
      setWanting(true)
    } else if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      event.preventDefault()
      setAt(nextPlace(event.key, place, choices.length))
    }
  }
  return (
    <Dialog title={words('search.title')} onClose={onClose} wide>
      <div className="stack">
        <TextField
          name="search"
          label={words('search.field')}
          hint={words('search.hint')}
          value={typed}
          onChange={(event) => {
            setTyped(event.target.value)
            setAt(0)
            setWanting(false)
          }}
          onKeyDown={press}
          role="combobox"
          aria-expanded={choices.length > 0}
          aria-controls="search-choices"
          aria-autocomplete="list"
          aria-activedescendant={marked === undefined ? undefined : optionId(marked)}
          autoComplete="off"
          spellCheck={false}
          autoFocus
        />
        {query.isError && (
          <ErrorState what={words('search.these')} error={query.error} onRetry={() => void query.refetch()} />
        )}
        <p role="status" className="quiet small">
          {typed.trim() !== '' && isOver && words('search.count', { count: choices.length })}
        </p>
        <ul id="search-choices" role="listbox" aria-label={words('search.choices')} className={styles.choices}>
          {choices.map((choice, index) => (
            <li
              key={choice.key}
              id={optionId(choice)}
              role="option"
              aria-selected={index === place}
              className={styles.choice}
              tabIndex={-1}
              onKeyDown={press}
              onClick={() => go(choice)}
            >
              <ChoiceWords choice={choice} />
            </li>
          ))}
        </ul>
      </div>
    </Dialog>
  )
}

function ChoiceWords({ choice }: { choice: SearchChoice }) {
  const words = useWords()
  if (choice.kind === 'go')
    return (
      <>
        <span>{choice.label}</span> <span className="quiet small">{words('search.goes')}</span>
      </>
    )
  const { kind, title, under, why, matched } = choice.found
  return (
    <>
      <span>
        {title} <span className="quiet">{under}</span>
      </span>{' '}
      <span className="quiet small">
        {words('search.because', { kind: words(`search.kind.${kind}`), why: words(`search.why.${why}`), matched })}
      </span>
    </>
  )
}

function optionId({ key }: SearchChoice): string {
  return `search-${key.replaceAll('/', '-')}`
}

/** What is typed, once the fingers rest. */
function usePaused(typed: string): string {
  const [paused, setPaused] = useState(typed)
  useEffect(() => {
    const timer = setTimeout(() => setPaused(typed), pauseMs)
    return () => clearTimeout(timer)
  }, [typed])
  return paused
}
