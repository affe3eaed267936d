'use client'

import { useQuery } from '@tanstack/react-query'
import { useEffect, useState } from 'react'
import { Button } from '#components/button.tsx'
import { Icon } from '#components/icon.tsx'
import { useKeptSince } from '#lib/kept-answer.ts'
import { formatSpan } from '#lib/laboratory-time.ts'
import { sessionQueries } from '#lib/session.queries.ts'
import { useWords } from '#lib/words.ts'
import styles from './session-warning.module.css'

const WARN_MS = 5 * 60_000

/** Five minutes before a session ends: says so, and asks the server to go on. What is typed stays where it is. */
export function SessionWarning() {
  const words = useWords()
  const { data, refetch, isFetching } = useQuery(sessionQueries.current())
  const [left, setLeft] = useState(Infinity)
  const endsAt = data === undefined ? undefined : Date.parse(data.expiresAt)
  useEffect(() => {
    if (endsAt === undefined) return
    const tick = () => setLeft(endsAt - Date.now())
    tick()
    const timer = setInterval(tick, 1_000)
    document.addEventListener('visibilitychange', tick)
    return () => {
      clearInterval(timer)
      document.removeEventListener('visibilitychange', tick)
    }
  }, [endsAt])
  // Without a network nobody can be asked to go on, and what was kept here knows nothing of the session now.
  const away = useKeptSince() !== undefined
  if (away || left > WARN_MS) return null
  return (
    <div className={`${styles.warning} no-print`} role="alertdialog" aria-label={words('shell.session.title')}>
      <Icon name="clock" />
      <span role="timer" aria-live="off">
        {left > 0 ? words('shell.session.ends', { span: formatSpan(left) }) : words('shell.session.ended')}
      </span>
      {left > 0 ? (
        <Button onClick={() => void refetch()} busy={isFetching}>
          {words('shell.session.goOn')}
        </Button>
      ) : (
        // In another tab, so that what is typed here is still here afterwards.
        <a href="/sign-in" target="_blank" rel="opener">
          {words('shell.session.signIn')}
        </a>
      )}
    </div>
  )
}
