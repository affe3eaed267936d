'use client'

import type { BenchQueue } from '@curebook/contract/bench'
import { useQuery } from '@tanstack/react-query'
import { useRouter } from 'next/navigation'
import { useState } from 'react'
import { ButtonLink } from '#components/button.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { StatusMark, type Status } from '#components/status-mark.tsx'
import { NoticesPanel } from '#features/notices/notices-panel.tsx'
import { NotificationLine } from '#features/device/notification-line.tsx'
import { TabletFold } from '#features/device/tablet-fold.tsx'
import { ApiProblem } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { BenchFrame } from './bench-frame.tsx'
import { bySoonest, groupTasks, testPlace, type UrgencySection } from './bench-groups.ts'
import { benchQueries, lookUpCode } from './bench.queries.ts'
import { CodeField, type CodeOutcome } from './code-field.tsx'
import { GroupRow } from './group-row.tsx'
import { isHandOverCode, takeOverPlace } from './hand-over-code.ts'
import { useLaboratoryNow } from './laboratory-clock.ts'
import { CastingLink, PutInLink } from './order-links.tsx'
import { rowOfCode } from './rack-order.ts'
import { useWaitingActs } from './use-waiting-acts.ts'
import { stillToDo } from './waiting-acts.ts'

/** My work, most urgent first; a code typed or scanned opens the step that is due for it. */
export function BenchScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(benchQueries.queue(lab.id))
  // Nothing is assigned to somebody who enters nothing: an auditor opens by code and reads.
  const reads = !lab.may('reading:create')
  return (
    <BenchFrame
      heading={
        <PageHeading screen={words('bench.title')} under={words(reads ? 'bench.underReading' : 'bench.under')} />
      }
    >
      <NoticesPanel />
      <OpenByCode tasks={query.data?.tasks ?? []} />
      {!reads && <NotificationLine absent />}
      {!reads && (
        <Loaded query={query} what={words('bench.myWork')} height="24rem">
          {({ tasks }) => <Work tasks={tasks} />}
        </Loaded>
      )}
      {lab.may('hand-over:create') && (
        <p className="no-print">
          <ButtonLink href={`/l/${lab.short}/bench/hand-over`} prefetch={false}>
            {words('bench.handOver')}
          </ButtonLink>
        </p>
      )}
      <TabletFold />
    </BenchFrame>
  )
}

function OpenByCode({ tasks }: { tasks: BenchQueue['tasks'] }) {
  const words = useWords()
  const lab = useLaboratory()
  const router = useRouter()
  const [looking, setLooking] = useState(false)

  async function open(typed: string): Promise<CodeOutcome> {
    const mine = rowOfCode(tasks, typed)
    if (mine !== undefined) return go(mine.testId, mine)
    if (typed.trim() === '') return { wrong: words('bench.code.empty') }
    if (isHandOverCode(typed) && lab.may('hand-over:take')) {
      router.push(takeOverPlace(lab.short, typed))
      return { found: words('bench.code.handOver') }
    }
    setLooking(true)
    try {
      const { testId, sentence, label, code } = await lookUpCode(lab.id, typed.trim())
      return testId === null ? { wrong: withExpected(sentence) } : go(testId, { label, code })
    } catch (cause) {
      return { wrong: whyNot(cause, typed.trim()) }
    } finally {
      setLooking(false)
    }
  }
  function go(testId: string, { label, code }: { label: string; code: string }): CodeOutcome {
    router.push(testPlace(lab.short, testId))
    return { found: words('bench.code.found', { name: words('bench.name', { label, code }) }) }
  }
  function whyNot(cause: unknown, typed: string): string {
    if (!(cause instanceof ApiProblem)) return words('common.unexpected')
    if (cause.status === 404) return withExpected(words('bench.code.unknown', { typed }))
    return cause.status === 400 ? withExpected(cause.message) : cause.message
  }
  /** What is wrong, and what was to be expected in its place. */
  function withExpected(wrong: string): string {
    const soonest = tasks.toSorted(bySoonest).slice(0, 3)
    const expected = soonest.map(({ label, code }) => words('bench.name', { label, code })).join(', ')
    return expected === '' ? wrong : words('bench.code.expected', { wrong, expected })
  }
  return (
    <CodeField
      label={words('bench.code.label')}
      hint={words('bench.code.hint')}
      button={words('bench.code.open')}
      busy={looking}
      focused
      onCode={open}
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
  const sections = groupTasks(stillToDo(tasks, useWaitingActs()), now)
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
