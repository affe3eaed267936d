'use client'

import type { Notice } from '@curebook/contract/notices'
import { useQuery } from '@tanstack/react-query'
import { useId, useRef } from 'react'
import { Button } from '#components/button.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { TimeText } from '#components/time-text.tsx'
import { fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { askForNotices, useHeldNotices } from './held-notices.ts'
import { noticeQueries, useSeeNotice } from './notices.queries.ts'
import styles from './notices.module.css'

/** At the top of a first screen: what others decided about my tests, each until I say that I have seen it. */
export function NoticesPanel() {
  const { me } = useLaboratory()
  // Another person at the same tablet has looked at none of theirs yet.
  return <OwnNotices key={me.membershipId} />
}

function OwnNotices() {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery({
    ...noticeQueries.mine(lab.id, lab.me.membershipId),
    enabled: lab.may('notice:read-own'),
  })
  const heading = useRef<HTMLHeadingElement>(null)
  const items = useHeldNotices(query.data?.items)
  if (query.data === undefined || items.length === 0) return null
  // Beyond the list, the older ones follow as these are seen; what came meanwhile is counted in the header.
  const older = query.data.count - query.data.items.length
  // The button that was pressed goes with its notice: focus keeps the place, or with the last one goes to the screen.
  const seen = () => {
    const place = items.length > 1 ? heading.current : document.getElementById('content')
    place?.focus({ preventScroll: true })
    askForNotices()
  }
  return (
    <section id="notices" className={`${styles.panel} stack stack-tight no-print`} aria-labelledby="notices-title">
      <h2 id="notices-title" ref={heading} tabIndex={-1}>
        {words('notices.title', { count: items.length + older })}
      </h2>
      <ul className="plain-list stack stack-tight">
        {items.map((notice) => (
          <li key={notice.id}>
            <NoticeRow notice={notice} onSeen={seen} />
          </li>
        ))}
      </ul>
      {older > 0 && <p className="quiet">{words('notices.more', { count: older, shown: items.length })}</p>}
    </section>
  )
}

/** What is named at once; a whole series would push the work itself off the screen. */
const shownTests = 8

function NamedTests({ tests }: { tests: Notice['tests'] }) {
  const words = useWords()
  const names = tests.map(({ label, code }) => words('notices.test', { label, code }))
  if (names.length <= shownTests + 1) return <Names names={names} />
  return (
    <>
      <Names names={names.slice(0, shownTests)} />
      <details>
        <summary>{words('notices.others', { count: names.length - shownTests })}</summary>
        <Names names={names.slice(shownTests)} />
      </details>
    </>
  )
}

/** None is broken at its hyphen: “12-” at the end of a line says nothing. */
function Names({ names }: { names: readonly string[] }) {
  return (
    <p>
      {names.map((name, index) => (
        <span key={name}>
          <span className="nowrap">{index < names.length - 1 ? `${name},` : name}</span>{' '}
        </span>
      ))}
    </p>
  )
}

function NoticeRow({ notice, onSeen }: { notice: Notice; onSeen: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const see = useSeeNotice(lab.id, lab.me.membershipId)
  const id = useId()
  const { kind, by, others, reason, tests, at } = notice
  const took = kind === 'taken' && others.length === 1 && others[0]!.membershipId === by.membershipId
  const values = { by: by.name, others: others.map(({ name }) => name).join(', '), count: tests.length }
  return (
    <article className={`${styles.notice} row row-between row-top`} aria-labelledby={id}>
      <div className="stack stack-tight">
        <p id={id} className="strong">
          {words(took ? 'notices.took' : `notices.${kind}${others.length > 0 ? 'With' : 'Alone'}`, values)}
        </p>
        <NamedTests tests={tests} />
        {reason !== null && <p>{words('notices.reason', { reason })}</p>}
        <p className="quiet small">
          <TimeText at={at} />
        </p>
        <FormErrors errors={fieldErrors(see.error)} />
      </div>
      <Button aria-describedby={id} busy={see.isPending} onClick={() => see.mutate(notice.id, { onSuccess: onSeen })}>
        {words('notices.seen')}
      </Button>
    </article>
  )
}
