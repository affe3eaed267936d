'use client'

import type { PutIn } from '@curebook/contract/put-in'
import { useQuery } from '@tanstack/react-query'
import { useSearchParams } from 'next/navigation'
import { Button, ButtonLink } from '#components/button.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { BenchFrame } from '#features/bench/bench-frame.tsx'
import { useLaboratoryNow } from '#features/bench/laboratory-clock.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useSearchParam } from '#lib/search-param.ts'
import { useWords } from '#lib/words.ts'
import { ClosedLater } from './closed-later.tsx'
import { NextActs } from './next-acts.tsx'
import { PutInFields } from './put-in-fields.tsx'
import { PutInTable } from './put-in-table.tsx'
import { putInQueries } from './put-in.queries.ts'
import { planOf, type PutInChoice } from './put-in-view.ts'
import { SettleList } from './settle-list.tsx'
import { SettledList } from './settled-list.tsx'

/** When each specimen goes into the bath and when its run starts, where one machine takes one after another. */
export function PutInScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const search = useSearchParams()
  const [designId, methodKey] = [search.get('designId') ?? '', search.get('methodKey') ?? '']
  // An address that was cut short names no list.
  const named = designId !== '' && methodKey !== ''
  const query = useQuery({ ...putInQueries.one(lab.id, { designId, methodKey }), enabled: named })
  return (
    <BenchFrame
      heading={
        <PageHeading
          screen={words('putIn.title')}
          under={query.data && `${query.data.methodName}, ${query.data.designName}`}
          actions={
            <>
              <Button onClick={() => window.print()}>{words('putIn.print')}</Button>
              <ButtonLink href={`/l/${lab.short}/bench`} prefetch={false}>
                {words('bench.back')}
              </ButtonLink>
            </>
          }
        />
      }
    >
      {named ? (
        <Loaded query={query} what={words('putIn.this')} height="32rem">
          {(data) => <List data={data} />}
        </Loaded>
      ) : (
        <EmptyState title={words('putIn.none')}>{words('putIn.noneMore')}</EmptyState>
      )}
    </BenchFrame>
  )
}

function List({ data }: { data: PutIn }) {
  const words = useWords()
  const lab = useLaboratory()
  const [day, setDay] = useSearchParam('day')
  const [at, setAt] = useSearchParam('at')
  const [run, setRun] = useSearchParam('run')
  const [margin, setMargin] = useSearchParam('margin')
  const [spares, setSpares] = useSearchParam('spares')
  const [machine, setMachine] = useSearchParam('machine')
  const choice: PutInChoice = { day, at, run, margin, spares, machine }
  const setters = { day: setDay, at: setAt, run: setRun, margin: setMargin, spares: setSpares, machine: setMachine }
  // Times are whole minutes; only the countdown moves with the second.
  const now = useLaboratoryNow(10_000)
  const plan = planOf(data, choice, now, lab.zone)
  const spareCount = data.waiting.filter(({ spare }) => spare).length
  if (plan === null || data.soak === null)
    return <EmptyState title={words('putIn.none')}>{words('putIn.noneMore')}</EmptyState>
  return (
    <div className="stack">
      <p>
        {words('putIn.about', {
          earliest: words('putIn.span', spanOf(data.soak.earliestMinutes)),
          latest: words('putIn.span', spanOf(data.soak.latestMinutes)),
          edition: data.soak.edition,
          run: plan.run,
          margin: plan.margin,
        })}
      </p>
      <PutInFields
        choice={choice}
        plan={plan}
        now={now}
        spareCount={spareCount}
        machines={data.machines}
        set={(name, value) => setters[name](value)}
      />
      {plan.lateAtOnce > 0 && (
        <p role="status" className="strong">
          {words('putIn.lateAtOnce', { count: plan.waiting, late: plan.lateAtOnce })}
        </p>
      )}
      {data.breaks.length > 0 && (
        <p>
          {words('putIn.breaks', {
            breaks: data.breaks.map(({ from, to }) => words('putIn.break', { from, to })).join(', '),
          })}
        </p>
      )}
      <ClosedLater rows={plan.rows} later={data.later} />
      <NextActs next={plan.next} />
      <PutInTable rows={plan.rows} data={data} />
      <SettleList data={data} plan={plan} />
      <SettledList data={data} rows={plan.rows} />
    </div>
  )
}

/** Long soaks are told in hours. */
function spanOf(minutes: number): { readonly count: number; readonly unit: string } {
  return minutes % 60 === 0 && minutes > 120 ? { count: minutes / 60, unit: 'h' } : { count: minutes, unit: 'min' }
}
