'use client'

import type { TestView } from '@curebook/contract/bench'
import type { StepDeclaration } from '@curebook/trade/procedure/declaration'
import { useQuery } from '@tanstack/react-query'
import { useSearchParams } from 'next/navigation'
import { EmptyState } from '#components/empty-state.tsx'
import { ButtonLink } from '#components/button.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { BenchFrame } from './bench-frame.tsx'
import { sheetPlace, testPlace } from './bench-groups.ts'
import { benchQueries } from './bench.queries.ts'
import { RackWeighing } from './rack-weighing.tsx'
import { rackReadings } from './reading-slots.ts'

/** A rack of specimens that wait for one reading: its method and step stand in the address. */
export function RackScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const search = useSearchParams()
  const [methodKey, stepKey, designId] = ['methodKey', 'stepKey', 'designId'].map((name) => search.get(name) ?? '') as [
    string,
    string,
    string,
  ]
  const queue = useQuery(benchQueries.queue(lab.id, 'all'))
  const first =
    search.get('test') ??
    queue.data?.tasks.find((task) => task.methodKey === methodKey && task.stepKey === stepKey)?.testId ??
    ''
  const test = useQuery(benchQueries.test(lab.id, first))
  const step = (test.data?.method.steps as readonly StepDeclaration[] | undefined)?.find(({ key }) => key === stepKey)
  const waiting = search.get('test') === null && queue.data !== undefined && first === ''
  return (
    <BenchFrame
      heading={
        <PageHeading
          screen={words('bench.rack.title')}
          thing={step?.title}
          under={test.data && `${test.data.method.name}, ${test.data.design.name}`}
          actions={
            <>
              {test.data !== undefined && (
                <ButtonLink
                  href={sheetPlace(lab.short, {
                    designId: test.data.design.id,
                    methodKey: test.data.method.key,
                    stepKey,
                  })}
                  prefetch={false}
                >
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
      {waiting ? (
        <EmptyState title={words('bench.rack.none')}>{words('bench.rack.noneMore')}</EmptyState>
      ) : (
        <Loaded query={test} what={words('bench.thisRack')} height="32rem">
          {(view) => <RackOfStep view={view} step={step} designId={designId} named={search.get('readingKey')} />}
        </Loaded>
      )}
    </BenchFrame>
  )
}

function RackOfStep({
  view,
  step,
  designId,
  named,
}: {
  view: TestView
  step: StepDeclaration | undefined
  designId: string
  named: string | null
}) {
  const words = useWords()
  const lab = useLaboratory()
  const fitting = step === undefined ? [] : rackReadings(step)
  const declaration = fitting.find(({ key }) => key === named) ?? fitting[0]
  const rack = useQuery(
    benchQueries.rack(lab.id, {
      methodKey: view.method.key,
      stepKey: step?.key ?? '',
      readingKey: declaration?.key ?? '',
      designId,
    }),
  )
  if (step === undefined || declaration === undefined)
    return (
      <EmptyState
        title={words('bench.rack.notOne')}
        action={
          <ButtonLink size="bench" href={testPlace(lab.short, view.id)} prefetch={false}>
            {words('bench.rack.openOne', { label: view.item.label })}
          </ButtonLink>
        }
      />
    )
  return (
    <Loaded query={rack} what={words('bench.thisRack')} height="32rem">
      {(loaded) =>
        loaded.rows.length === 0 ? (
          <EmptyState title={words('bench.rack.none')}>{words('bench.rack.noneMore')}</EmptyState>
        ) : (
          <RackWeighing key={declaration.key} view={view} step={step} declaration={declaration} rack={loaded} />
        )
      }
    </Loaded>
  )
}
