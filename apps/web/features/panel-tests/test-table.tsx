'use client'

import type { PanelTest } from '@curebook/contract/panel-tests'
import Link from 'next/link'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { SpecimenMark } from '#components/specimen-mark.tsx'
import { StatusMark, type Status } from '#components/status-mark.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import styles from './panel-tests.module.css'

const marks = {
  waiting: 'waiting',
  'in-work': 'in-work',
  done: 'done',
  void: 'void',
  replaced: 'void',
  spare: 'planned',
} as const satisfies Record<PanelTest['state'], Status>

/** Each test beside the series with what it found; readings outside the method's limits are told with the result. */
export function TestTable({ tests, mayPlan }: { tests: readonly PanelTest[]; mayPlan: boolean }) {
  const words = useWords()
  const lab = useLaboratory()
  const { digits } = useLaboratoryFormat()
  const columns: readonly Column<PanelTest>[] = [
    {
      key: 'code',
      head: words('panelTests.code'),
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
      key: 'test',
      head: words('panelTests.test'),
      sort: ({ methodName }) => methodName,
      cell: (row) => row.methodName,
    },
    {
      key: 'content',
      head: words('panelTests.content'),
      sort: ({ emulsionPercent }) => Number(emulsionPercent ?? 0),
      cell: ({ emulsionPercent }) =>
        emulsionPercent === null
          ? words('panelTests.noContent')
          : words('panelTests.contentOf', { content: digits(emulsionPercent) }),
    },
    {
      key: 'state',
      head: words('panelTests.state'),
      cell: ({ state, stepTitle }) => (
        <>
          <StatusMark status={marks[state]}>{words(`designs.testState.${state}`)}</StatusMark>
          {stepTitle !== null && marks[state] !== 'void' && (
            <p className="quiet small">{words('panelTests.step', { step: stepTitle })}</p>
          )}
        </>
      ),
    },
    { key: 'results', head: words('panelTests.found'), cell: ({ results }) => <Found results={results} /> },
  ]
  return (
    <DataTable
      caption={words('panelTests.made')}
      captionHidden
      columns={columns}
      rows={tests}
      idOf={({ testId }) => testId}
      sortParam="tests"
      empty={
        <EmptyState title={words('panelTests.noneMade')}>
          {mayPlan ? words('panelTests.noneMadeMore') : undefined}
        </EmptyState>
      }
    />
  )
}

function Found({ results }: Pick<PanelTest, 'results'>) {
  return (
    <ul className={`plain-list ${styles.found}`}>
      {results.map(({ id, label, value, unit, displayDecimals, choice, findings, refusal }) => (
        <li key={id}>
          {label}: {value !== null && <QuantityText digits={value} unit={unit} decimals={displayDecimals} />}
          {choice}
          {refusal?.text}
          {findings !== null && <span className="quiet small"> {findings}</span>}
        </li>
      ))}
    </ul>
  )
}
