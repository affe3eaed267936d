'use client'

import type { BenchQueue } from '@curebook/contract/bench'
import { useQuery } from '@tanstack/react-query'
import { useRouter } from 'next/navigation'
import { useState } from 'react'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { StatusMark, type Status } from '#components/status-mark.tsx'
import { ApiProblem } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { BenchFrame } from './bench-frame.tsx'
import { bySoonest, groupTasks, testPlace, type UrgencySection } from './bench-groups.ts'
import { benchQueries, lookUpCode } from './bench.queries.ts'
import { CodeField } from './code-field.tsx'
import { GroupRow } from './group-row.tsx'
import { useLaboratoryNow } from './laboratory-clock.ts'
import { CastingLink, PutInLink } from './order-links.tsx'
import { rowOfCode } from './rack-order.ts'

/** My work, most urgent first; a code typed or scanned opens the step that is due for it. */
export function BenchScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(benchQueries.queue(lab.id))
  return (
    <BenchFrame heading={<PageHeading screen={words('bench.title')} under={words('bench.under')} />}>
      <OpenByCode tasks={query.data?.tasks ?? []} />
      <Loaded query={query} what={words('bench.myWork')} height="24rem">
        {({ tasks }) => <Work tasks={tasks} />}
      </Loaded>
    </BenchFrame>
  )
}

function OpenByCode({ tasks }: { tasks: BenchQueue['tasks'] }) {
  const words = useWords()
  const lab = useLaboratory()
  const router = useRouter()
  const [error, setError] = useState<string>()
  const [looking, setLooking] = useState(false)

  async function open(typed: string) {
    const mine = rowOfCode(tasks, typed)
    if (mine !== undefined) return router.push(testPlace(lab.short, mine.testId))
    const expected = tasks
      .toSorted(bySoonest)
      .slice(0, 3)
      .map(({ label, code }) => `${label} (${code})`)
      .join(', ')
    if (typed.trim() === '') return setError(words('bench.code.empty'))
    setLooking(true)
    try {
      const { testId, sentence } = await lookUpCode(lab.id, typed.trim())
      if (testId === null) setError(sentence)
      else router.push(testPlace(lab.short, testId))
    } catch (cause) {
      const unknown = cause instanceof ApiProblem && cause.status === 404
      const why = cause instanceof ApiProblem ? cause.message : words('common.unexpected')
      setError(
        unknown
          ? words('bench.code.unknown', { typed: typed.trim(), expected, any: expected === '' ? 'no' : 'yes' })
          : why,
      )
    } finally {
      setLooking(false)
    }
  }
  return (
    <CodeField
      label={words('bench.code.label')}
      hint={words('bench.code.hint')}
      button={words('bench.code.open')}
      error={error}
      busy={looking}
      focused
      onCode={(typed) => void open(typed)}
    />
  )
}

const marks = {
  late: 'late',
  closing: 'closing',
  open: 'due',
  'opens-later': 'waiting',
  'any-time': 'planned',
} as const satisfies Record<UrgencySection['urgency'], Status>

function Work({ tasks }: { tasks: BenchQueue['tasks'] }) {
  const words = useWords()
  const now = useLaboratoryNow(10_000)
  const sections = groupTasks(tasks, now)
  if (sections.length === 0) return <EmptyState title={words('bench.none')}>{words('bench.noneMore')}</EmptyState>
  return (
    <>
      {sections.map(({ urgency, groups }) => (
        <section key={urgency} className="stack stack-tight" aria-labelledby={`bench-${urgency}`}>
          <h2 id={`bench-${urgency}`} className="row">
            <StatusMark status={marks[urgency]}>{words(`bench.urgency.${urgency}`)}</StatusMark>
          </h2>
          <ul className="plain-list stack stack-tight">
            {groups.map((group) => (
              <li key={group.key}>
                <GroupRow group={group} />
                <CastingLink group={group} />
                <PutInLink task={group.first} />
              </li>
            ))}
          </ul>
        </section>
      ))}
    </>
  )
}
