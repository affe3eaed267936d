'use client'

import { useQuery } from '@tanstack/react-query'
import { TimeText } from '#components/time-text.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { peopleQueries } from './people.queries.ts'

/** Mail that waits to be sent, and why; nothing where none does. */
export function MailLine() {
  const words = useWords()
  const lab = useLaboratory()
  const { data } = useQuery(peopleQueries.mail(lab.id))
  if (data === undefined || data.waiting === 0) return null
  return (
    <section className="stack" aria-labelledby="mail-waits">
      <h2 id="mail-waits">{words('people.mail.waits', { count: data.waiting })}</h2>
      {data.failure === null ? (
        <p>{words('people.mail.soon')}</p>
      ) : (
        <p>
          {words('people.mail.failed', { error: data.failure.error })} <TimeText at={data.failure.at} look="short" />
        </p>
      )}
    </section>
  )
}
