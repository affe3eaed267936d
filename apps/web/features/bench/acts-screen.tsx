'use client'

import { useQuery } from '@tanstack/react-query'
import { useSearchParams } from 'next/navigation'
import { ButtonLink } from '#components/button.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { ActsOfStep } from './acts-of-step.tsx'
import { BenchFrame } from './bench-frame.tsx'
import { sheetPlace } from './bench-groups.ts'
import { benchQueries } from './bench.queries.ts'
import { PutInLink } from './order-links.tsx'
import { useWaitingActs } from './use-waiting-acts.ts'
import { stillToDo } from './waiting-acts.ts'

/** One act (a start or an end) for many specimens; which act stands in the address. */
export function ActsScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const search = useSearchParams()
  const [methodKey, stepKey, designId] = ['methodKey', 'stepKey', 'designId'].map((name) => search.get(name) ?? '')
  const act = search.get('act') === 'end' ? 'end' : 'start'
  const mine = useQuery(benchQueries.queue(lab.id))
  const all = useQuery(benchQueries.queue(lab.id, 'all'))
  const waiting = useWaitingActs()
  const wanted = stillToDo(
    all.data?.tasks.filter(
      (task) =>
        task.methodKey === methodKey &&
        task.stepKey === stepKey &&
        task.act === act &&
        (designId === '' || task.designId === designId),
    ) ?? [],
    waiting,
  )
  const [first] = wanted
  return (
    <BenchFrame
      heading={
        <PageHeading
          screen={words('bench.acts.title')}
          thing={
            first === undefined ? undefined : words('bench.acts.thing', { step: first.stepTitle, act: first.actLabel })
          }
          under={first && `${first.methodName}, ${first.designName}`}
          actions={
            <>
              {first !== undefined && (
                <ButtonLink href={sheetPlace(lab.short, first)} prefetch={false}>
                  {words('bench.sheet')}
                </ButtonLink>
              )}
              <ButtonLink href={`/l/${lab.short}/bench`} prefetch={false}>
                {words('bench.back')}
              </ButtonLink>
            </>
          }
        />
      }
    >
      {first !== undefined && <PutInLink task={first} />}
      <Loaded query={all} what={words('bench.theseSpecimens')} height="32rem">
        {() => (
          <Loaded query={mine} what={words('bench.theseSpecimens')} height="32rem">
            {({ tasks, now }) => (
              <ActsOfStep
                key={`${methodKey} ${stepKey} ${act} ${designId}`}
                tasks={wanted}
                mine={new Set(tasks.map(({ testId }) => testId))}
                serverNow={now}
                stepKey={stepKey ?? ''}
                act={act}
              />
            )}
          </Loaded>
        )}
      </Loaded>
    </BenchFrame>
  )
}
