'use client'

import type { Design, SpecimenRow, TestState } from '@curebook/contract/designs'
import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { Select } from '#components/select.tsx'
import { SpecimenMark } from '#components/specimen-mark.tsx'
import { StatusMark, type Status } from '#components/status-mark.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useSearchParam } from '#lib/search-param.ts'
import { useWords } from '#lib/words.ts'
import { designQueries } from './designs.queries.ts'
import { filterSpecimens, testStates } from './specimen-filter.ts'
import styles from './designs.module.css'

/** Every specimen of the series with its state; a void one stays, with its reason and what took its place. */
export function SpecimensTab({ design }: { design: Design }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(designQueries.specimens(lab.id, { id: design.id, revision: design.revision }))
  const [method, setMethod] = useSearchParam('test')
  const [state, setState] = useSearchParam('state')
  const clear = () => {
    setMethod('')
    setState('')
  }
  return (
    <Loaded query={query} what={words('designs.theSpecimens')} height="32rem">
      {({ items }) => (
        <div className="stack stack-tight">
          <div className="row no-print">
            <Select
              name="test"
              label={words('designs.test')}
              value={method}
              onChange={(event) => setMethod(event.target.value)}
              prompt={words('designs.allTests')}
              options={methodsOf(items)}
            />
            <Select
              name="state"
              label={words('designs.stateHead')}
              value={state}
              onChange={(event) => setState(event.target.value)}
              prompt={words('designs.filter.all')}
              options={testStates.map((value) => ({ value, label: words(`designs.testState.${value}`) }))}
            />
          </div>
          <SpecimenTable
            rows={filterSpecimens(items, { method, state })}
            empty={
              items.length === 0 ? (
                <EmptyState title={words('designs.noSpecimens')}>{words('designs.noSpecimensMore')}</EmptyState>
              ) : (
                <EmptyState
                  title={words('designs.noSpecimenMatch')}
                  action={<Button onClick={clear}>{words('designs.clearFilter')}</Button>}
                />
              )
            }
          />
        </div>
      )}
    </Loaded>
  )
}

function methodsOf(rows: readonly SpecimenRow[]) {
  const names = new Map(rows.map(({ methodKey, methodName }) => [methodKey, methodName]))
  return [...names].map(([value, label]) => ({ value, label }))
}

const marks = {
  waiting: 'waiting',
  'in-work': 'in-work',
  done: 'done',
  void: 'void',
  replaced: 'void',
  spare: 'planned',
} as const satisfies Record<TestState, Status>

function SpecimenTable({ rows, empty }: { rows: readonly SpecimenRow[]; empty: React.ReactNode }) {
  const words = useWords()
  const lab = useLaboratory()
  const columns: readonly Column<SpecimenRow>[] = [
    {
      key: 'code',
      head: words('designs.code'),
      sort: ({ code }) => code,
      cell: ({ testId, code, form, state }) => (
        <Link href={`/l/${lab.short}/bench/tests/${testId}`} prefetch={false}>
          <SpecimenMark
            form={form}
            code={code}
            formWord={words(`designs.form.${form}`)}
            voided={marks[state] === 'void'}
          />
        </Link>
      ),
    },
    {
      key: 'label',
      head: words('designs.label'),
      sort: ({ label }) => label,
      cell: ({ label }) => <span className="reading nowrap">{label}</span>,
    },
    {
      key: 'test',
      head: words('designs.test'),
      sort: (row) => row.methodName,
      cell: (row) => row.methodName,
    },
    {
      key: 'state',
      head: words('designs.stateHead'),
      sort: ({ state }) => testStates.indexOf(state),
      cell: ({ state, waits }) => (
        <span className="row" style={{ gap: 'var(--gap-1)' }}>
          <StatusMark status={marks[state]}>{words(`designs.testState.${state}`)}</StatusMark>
          {waits && <StatusMark status="waiting">{words('designs.waitsForRelease')}</StatusMark>}
        </span>
      ),
    },
    {
      key: 'step',
      head: words('designs.step'),
      sort: (row) => row.stepTitle ?? '',
      cell: (row) => row.stepTitle ?? '',
    },
    {
      key: 'who',
      head: words('designs.who'),
      sort: ({ assignee }) => assignee?.name ?? '',
      cell: ({ assignee }) =>
        assignee === null ? (
          <span className="quiet">{words('designs.nobody')}</span>
        ) : (
          <span className="nowrap">{assignee.name}</span>
        ),
    },
    {
      key: 'origin',
      head: words('designs.origin'),
      cell: ({ itemId, code }) => (
        <Link
          href={`/l/${lab.short}/materials/${itemId}`}
          prefetch={false}
          className="nowrap"
          aria-label={words('designs.originOf', { code })}
        >
          {words('designs.originLink')}
        </Link>
      ),
    },
    {
      key: 'remark',
      head: words('designs.remark'),
      cell: ({ voidReason, replaces, purpose }) => (
        <span className={styles.remark}>
          {[
            voidReason === null ? '' : words('designs.voidWhy', { reason: voidReason }),
            replaces === null ? '' : words('designs.replaces', { label: replaces }),
            purpose === 'spare' && replaces === null ? words('designs.isSpare') : '',
          ]
            .filter((part) => part !== '')
            .join(' ')}
        </span>
      ),
    },
  ]
  return (
    <DataTable
      caption={words('designs.specimens')}
      captionHidden
      columns={columns}
      rows={rows}
      idOf={({ testId }) => testId}
      empty={empty}
      tall
    />
  )
}
