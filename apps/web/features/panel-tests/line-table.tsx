'use client'

import type { Design } from '@curebook/contract/designs'
import Link from 'next/link'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { StatusMark, type Status } from '#components/status-mark.tsx'
import { decimalsOf, marks } from '#features/range/panel-marks.ts'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import styles from './panel-tests.module.css'
import { type LineState, type PanelLine, ofCurve, stateOf, whyUndecided } from './panel-state.ts'

const stateMarks = {
  entered: 'done',
  done: 'done',
  running: 'in-work',
  planned: 'planned',
  missing: 'not-tested',
} as const satisfies Record<LineState, Status>

/** Every property of the panel: its limit, how far its tests are, what was found and what is to be done next. */
export function LineTable({
  lines,
  design,
  onPlan,
}: {
  lines: readonly PanelLine[]
  design: Design
  onPlan?: ((line: PanelLine) => void) | undefined
}) {
  const words = useWords()
  const columns: readonly Column<PanelLine>[] = [
    {
      key: 'property',
      head: words('panelTests.property'),
      cell: (line) => <Property line={line} />,
    },
    {
      key: 'state',
      head: words('panelTests.state'),
      cell: (line) => (
        <>
          <StatusMark status={stateMarks[stateOf(line)]}>
            {words(`panelTests.stateOf.${stateOf(line)}`, {
              done: line.done,
              count: line.count,
            })}
          </StatusMark>
          <Few line={line} />
        </>
      ),
    },
    {
      key: 'value',
      head: words('panelTests.value'),
      cell: ({ row, found }) => (row === null ? <FoundWithoutLimit found={found} /> : <FoundOf row={row} />),
    },
    {
      key: 'limit',
      head: words('panelTests.limit'),
      cell: ({ row }) => (row === null ? <span className="quiet">{words('panelTests.noLimit')}</span> : row.limit),
    },
    {
      key: 'verdict',
      head: words('panelTests.verdict'),
      cell: (line) =>
        line.row !== null && (
          <>
            <StatusMark status={marks[line.row.verdict]} />
            <WhyUndecided line={line} design={design} />
          </>
        ),
    },
    {
      key: 'act',
      head: <span className="sr-only">{words('panelTests.act')}</span>,
      cell: (line) => <Act line={line} design={design} onPlan={onPlan} />,
    },
  ]
  return (
    <DataTable
      caption={words('panelTests.asked')}
      captionHidden
      columns={columns}
      rows={lines}
      idOf={({ key }) => key}
      empty={<EmptyState title={words('panelTests.asksNothing')} />}
    />
  )
}

/** "2 of 3 count at 12 %": fewer than the editions of the tests ask for. */
function Few({ line: { few, methods } }: { line: PanelLine }) {
  const words = useWords()
  const { digits } = useLaboratoryFormat()
  return few.map(({ methodKey, methodName, contents, counted, open, voided, asked }) => (
    <p key={`${methodKey} ${contents.join(' ')}`} className="quiet small">
      {methods.length > 1 && `${methodName}: `}
      {contents.length === 0
        ? words('panelTests.few', { counted, asked })
        : words('panelTests.fewAt', { counted, asked, content: contents.map((one) => digits(one)).join('; ') })}
      {open > 0 && words('panelTests.fewOpen', { count: open })}
      {voided > 0 && words('panelTests.fewVoid', { count: voided })}
    </p>
  ))
}

/** The value, or the classes that answer in its place. */
function FoundOf({ row }: { row: NonNullable<PanelLine['row']> }) {
  if (row.value === null) return row.classes
  return (
    <span className="nowrap">
      <QuantityText digits={row.value} unit={row.unit} decimals={decimalsOf(row, row.value)} />
    </span>
  )
}

/** Why there is no verdict yet; what is read off a curve says where that stands. */
function WhyUndecided({ line, design }: { line: PanelLine; design: Design }) {
  const words = useWords()
  const lab = useLaboratory()
  const why = whyUndecided(line)
  if (why === undefined) return null
  return (
    <p className="quiet small">
      {why}
      {ofCurve(line) && (
        <>
          {' '}
          {words('panelTests.alongCurve')}{' '}
          <Link href={`/l/${lab.short}/designs/${design.id}?tab=results`} prefetch={false}>
            {words('panelTests.toResults')}
          </Link>
        </>
      )}
    </p>
  )
}

/** A value without a limit stands alone: of each content, since none of them is judged. */
function FoundWithoutLimit({ found }: Pick<PanelLine, 'found'>) {
  const words = useWords()
  const { digits } = useLaboratoryFormat()
  if (found.length === 0) return null
  return (
    <ul className="plain-list">
      {found.map(({ methodKey, emulsionPercent, n, value, unit, classes }) => (
        <li key={`${methodKey} ${emulsionPercent ?? ''} ${value === null}`}>
          {value === null ? (
            classes
          ) : (
            <span className="nowrap">
              <QuantityText digits={value} unit={unit} decimals={decimalsOf({ unit }, value)} />
            </span>
          )}{' '}
          <span className="quiet small">
            {emulsionPercent === null
              ? words('panelTests.foundOf', { n })
              : words('panelTests.foundAt', { content: digits(emulsionPercent), n })}
          </span>
        </li>
      ))}
    </ul>
  )
}

/** What is asked for, with the methods here that answer it. */
function Property({ line: { label, designation, methods } }: { line: PanelLine }) {
  const words = useWords()
  const lab = useLaboratory()
  return (
    <>
      {label}
      {designation !== '' && <span className="quiet small"> {designation}</span>}
      {methods.length > 0 && (
        <ul className={`plain-list small ${styles.methods}`} aria-label={words('panelTests.method')}>
          {methods.map(({ key, name }) => (
            <li key={key}>
              <Link href={`/l/${lab.short}/methods/${key}`} prefetch={false}>
                {name}
              </Link>
            </li>
          ))}
        </ul>
      )}
    </>
  )
}

/** A test of the panel is planned here, one of the series under Series; the rest is entered with the results. */
function Act({
  line,
  design,
  onPlan,
}: {
  line: PanelLine
  design: Design
  onPlan?: ((line: PanelLine) => void) | undefined
}) {
  const words = useWords()
  const lab = useLaboratory()
  if (onPlan === undefined) return null
  const place = `/l/${lab.short}/designs/${design.id}`
  if (line.methods.some((method) => method.place === 'panel'))
    return (
      <Button size="small" onClick={() => onPlan(line)}>
        {words('panelTests.plan')} <span className="sr-only">{line.label}</span>
      </Button>
    )
  if (stateOf(line) !== 'missing') return null
  const toSeries = line.methods.length > 0
  return (
    <Link href={`${place}?tab=${toSeries ? 'series' : 'results'}`} prefetch={false}>
      {words(toSeries ? 'panelTests.toSeries' : 'panelTests.toEnter')} <span className="sr-only">{line.label}</span>
    </Link>
  )
}
