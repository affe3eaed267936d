'use client'

import type { TestView } from '@curebook/contract/bench'
import type { StepDeclaration } from '@curebook/trade/procedure/declaration'
import { useQuery } from '@tanstack/react-query'
import { useSearchParams } from 'next/navigation'
import { useState } from 'react'
import { Button, ButtonLink } from '#components/button.tsx'
import { CheckboxGroup } from '#components/choices.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { lazyPart } from '#components/lazy-part.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { Select } from '#components/select.tsx'
import { Tabs } from '#components/tabs.tsx'
import { BenchFrame } from '#features/bench/bench-frame.tsx'
import { benchQueries } from '#features/bench/bench.queries.ts'
import { designQueries } from '#features/designs/designs.queries.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useSearchParam } from '#lib/search-param.ts'
import { useWords } from '#lib/words.ts'
import { sheetRows, type SheetRow } from './sheet-columns.ts'
import { SheetPaper } from './sheet-paper.tsx'

const SheetEntry = lazyPart(() => import('./sheet-entry.tsx').then(({ SheetEntry: entry }) => entry))

/** A sheet of paper for any step: empty boxes to be filled at the bench, and entered from it afterwards. */
export function SheetScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const search = useSearchParams()
  const [designId, methodKey] = ['designId', 'methodKey'].map((name) => search.get(name) ?? '') as [string, string]
  const specimens = useQuery({ ...designQueries.specimens(lab.id, { id: designId }), enabled: designId !== '' })
  const rows = sheetRows(specimens.data?.items ?? [], methodKey)
  const test = useQuery(benchQueries.test(lab.id, rows[0]?.testId ?? ''))
  return (
    <BenchFrame
      heading={
        <PageHeading
          screen={words('sheet.title')}
          thing={test.data?.method.name}
          under={test.data && `${test.data.design.name}, ${test.data.design.projectName}`}
          actions={
            <ButtonLink href={`/l/${lab.short}/bench`} prefetch={false}>
              {words('bench.back')}
            </ButtonLink>
          }
        />
      }
    >
      {designId === '' || (specimens.isSuccess && rows.length === 0) ? (
        <EmptyState title={words('sheet.none')}>{words('sheet.noneMore')}</EmptyState>
      ) : (
        <Loaded query={specimens} what={words('bench.theseSpecimens')} height="32rem">
          {() => (
            <Loaded query={test} what={words('bench.theseSpecimens')} height="32rem">
              {(view) => <SheetOf view={view} rows={rows} />}
            </Loaded>
          )}
        </Loaded>
      )}
    </BenchFrame>
  )
}

function SheetOf({ view, rows }: { view: TestView; rows: readonly SheetRow[] }) {
  const words = useWords()
  const lab = useLaboratory()
  const search = useSearchParams()
  const [stepKey, chooseStep] = useSearchParam('stepKey')
  const steps = view.method.steps as readonly StepDeclaration[]
  const step = steps.find(({ key }) => key === stepKey) ?? steps[0]
  const named = search.get('codes')?.split(' ').filter(Boolean) ?? []
  const [chosen, setChosen] = useState<readonly string[]>(
    rows.filter(({ code }) => named.length === 0 || named.includes(code)).map(({ testId }) => testId),
  )
  const entering = search.get('tab') === 'enter' && lab.may('reading:create')
  const wanted = rows.filter(({ testId }) => chosen.includes(testId))
  if (step === undefined) return null
  return (
    <>
      <div className="stack no-print">
        {lab.may('reading:create') && (
          <Tabs
            label={words('sheet.title')}
            tabs={[
              { key: 'print', label: words('sheet.print') },
              { key: 'enter', label: words('sheet.enter') },
            ]}
          />
        )}
        <Select
          name="stepKey"
          label={words('sheet.step')}
          options={steps.map(({ key, title }) => ({ value: key, label: title }))}
          value={step.key}
          onChange={(event) => chooseStep(event.target.value)}
        />
        <details>
          <summary>{words('sheet.chosen', { count: wanted.length })}</summary>
          <CheckboxGroup
            name="testId"
            label={words('sheet.specimens')}
            defaultValues={chosen}
            onValues={setChosen}
            choices={rows.map(({ testId, code, label }) => ({
              value: testId,
              label: words('bench.name', { label, code }),
            }))}
          />
        </details>
        {!entering && (
          <div>
            <Button tone="main" onClick={() => window.print()}>
              {words('sheet.printNow')}
            </Button>
          </div>
        )}
      </div>
      {entering ? (
        <SheetEntry key={step.key} view={view} step={step} rows={wanted} />
      ) : (
        <SheetPaper view={view} step={step} rows={wanted} />
      )}
    </>
  )
}
