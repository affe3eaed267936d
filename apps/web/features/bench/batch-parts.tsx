'use client'

import type { TestView } from '@curebook/contract/bench'
import type { ReadingDeclaration, StepDeclaration } from '@curebook/trade/procedure/declaration'
import { useQuery } from '@tanstack/react-query'
import { useRouter } from 'next/navigation'
import { useEffect, useRef } from 'react'
import { Button, ButtonLink } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { MainActs } from '#components/main-acts.tsx'
import { SaveState } from '#components/save-state.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useShortcut } from '#lib/shortcuts.tsx'
import { useWords } from '#lib/words.ts'
import { nextLike, testPlace } from './bench-groups.ts'
import { benchQueries } from './bench.queries.ts'
import { differenceOf } from './difference.ts'
import { savingOfEntries } from './reading-entry.ts'
import { readingsIn } from './reading-slots.ts'
import { AsTyped, decimalsOf } from './target-line.tsx'
import { UndoButton } from './undo-button.tsx'
import { entryFor, type Readings } from './use-readings.ts'

type Component = {
  readonly stepKey: string
  readonly declaration: ReadingDeclaration
  readonly target: string | undefined
  readonly weighed: string | undefined
  readonly onItsWay: boolean
}

/** Of a batch: every component with target and weight, and the next batch one key away. */
export function BatchParts({ view, readings }: { view: TestView; readings: Readings }) {
  return (
    <>
      <ComponentTable view={view} readings={readings} />
      <NextBatch view={view} readings={readings} />
    </>
  )
}

function componentsOf(view: TestView, { entries }: Readings): readonly Component[] {
  return (view.method.steps as readonly StepDeclaration[]).flatMap((step) =>
    step.readings
      .filter((declaration) => declaration.target !== undefined || view.targets[declaration.key] !== undefined)
      .map((declaration) => {
        const slot = { stepKey: step.key, declaration, repeat: 1 }
        const { current } = readingsIn(slot, view.readings)
        const entry = entryFor(entries, view.id, { stepKey: step.key, key: declaration.key, repeat: 1 }, current?.id)
        const target = view.targets[declaration.key] ?? view.targets[declaration.target?.component ?? '']
        return {
          stepKey: step.key,
          declaration,
          target,
          weighed: entry?.typed ?? current?.typed,
          onItsWay: entry !== undefined,
        }
      }),
  )
}

function ComponentTable({ view, readings }: { view: TestView; readings: Readings }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const rows = componentsOf(view, readings)
  const columns: readonly Column<Component>[] = [
    { key: 'component', head: words('bench.batch.component'), cell: ({ declaration }) => declaration.label },
    {
      key: 'target',
      head: words('bench.target'),
      unit: 'g',
      number: true,
      cell: ({ target, declaration }) =>
        target === undefined
          ? words('bench.batch.noTarget')
          : format.digits(target, decimalsOf(declaration.resolution)),
    },
    {
      key: 'weighed',
      head: words('bench.batch.weighed'),
      unit: 'g',
      number: true,
      cell: ({ weighed }) => <AsTyped typed={weighed ?? ''} unit={undefined} />,
    },
    {
      key: 'off',
      head: words('bench.offTarget'),
      unit: 'g',
      number: true,
      cell: ({ target, weighed, declaration }) => {
        const off =
          target === undefined || weighed === undefined ? undefined : differenceOf(target, weighed, declaration.unit)
        if (off === undefined) return ''
        const digits = format.digits(off.digits, decimalsOf(declaration.resolution))
        return `${off.sense === 'loss' ? '−' : off.sense === 'gain' ? '+' : ''}${digits}`
      },
    },
    {
      key: 'state',
      head: words('bench.state'),
      cell: ({ weighed, onItsWay }) =>
        words(weighed === undefined ? 'bench.batch.toWeigh' : onItsWay ? 'bench.batch.onItsWay' : 'bench.batch.stored'),
    },
  ]
  return (
    <DataTable
      caption={words('bench.batch.components')}
      columns={columns}
      rows={rows}
      idOf={({ declaration, stepKey }) => `${stepKey}/${declaration.key}`}
      sortParam="components"
      empty={<EmptyState title={words('bench.batch.noComponents')} />}
    />
  )
}

function NextBatch({ view, readings }: { view: TestView; readings: Readings }) {
  const words = useWords()
  const lab = useLaboratory()
  const router = useRouter()
  const queue = useQuery(benchQueries.queue(lab.id))
  const place = useRef<HTMLDivElement>(null)
  // Kept by a device before there was such a field: as in a series.
  const beside = view.specimen?.beside ? { designId: view.design.id, methodKey: view.specimen.methodKey } : undefined
  const next = nextLike(queue.data?.tasks ?? [], { testId: view.id, methodKey: view.method.key, beside })
  const done = view.currentStep === null
  const specimen = view.relatedTestId === null ? undefined : testPlace(lab.short, view.relatedTestId)
  // A mix for a test beside the series does not wait for other batches: what is made of it comes next.
  const nextStep = done && beside && specimen !== undefined ? (view.specimen?.nextStep ?? undefined) : undefined
  // Offered once my work is fetched anew: the batch before this one may still stand in what was fetched earlier.
  const fresh = !queue.isFetching
  const wanted = useRef(false)
  const toBatch = next === undefined || !fresh ? undefined : testPlace(lab.short, next.testId)
  const to = nextStep === undefined ? toBatch : specimen
  const go = () => {
    if (to === undefined) wanted.current = true
    else router.push(to)
  }
  // Pressed while my work is being fetched: one goes on as soon as it is here.
  useEffect(() => {
    if (!wanted.current || to === undefined) return
    wanted.current = false
    router.push(to)
  }, [to, router])
  useShortcut('n', words(nextStep === undefined ? 'bench.batch.nextKey' : 'bench.batch.nextActKey'), go)
  useEffect(() => {
    if (done && fresh && (document.activeElement === null || document.activeElement === document.body))
      place.current?.querySelector<HTMLElement>('button, a')?.focus()
  }, [done, fresh])
  const own = readings.entries.filter(({ testId }) => testId === view.id)
  return (
    <MainActs ref={place}>
      {nextStep !== undefined && specimen !== undefined && (
        <ButtonLink size="bench" tone="main" href={specimen} prefetch={false}>
          {words('bench.batch.nextAct', {
            step: nextStep,
            label: view.item.label,
            test: view.specimen?.methodName ?? '',
          })}
        </ButtonLink>
      )}
      {next !== undefined && (
        <Button
          size="bench"
          tone={done && nextStep === undefined ? 'main' : 'plain'}
          onClick={nextStep === undefined ? go : () => router.push(testPlace(lab.short, next.testId))}
        >
          {words('bench.batch.next', { label: next.label, code: next.code })}
        </Button>
      )}
      {next === undefined && nextStep === undefined && (
        <span>{words(beside ? 'bench.batch.noNextOfTest' : 'bench.batch.noNext')}</span>
      )}
      {specimen !== undefined && nextStep === undefined && (
        <ButtonLink size="bench" href={specimen} prefetch={false}>
          {words('bench.batch.specimen')}
        </ButtonLink>
      )}
      {done && (
        <>
          <SaveState saving={savingOfEntries(own, readings.online)} />
          <UndoButton entries={own} readings={readings} />
        </>
      )}
    </MainActs>
  )
}
