'use client'

import type { Schedule, ScheduleRow } from '@curebook/contract/schedule'
import { useSearchParams } from 'next/navigation'
import { Button, ButtonLink } from '#components/button.tsx'
import { Checkbox } from '#components/choices.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { dayOf } from '#lib/laboratory-time.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { useRemembered } from './remembered-view.ts'
import { csvName, csvOf, fileCells } from './schedule-csv.ts'
import { useScheduleColumns } from './schedule-columns.tsx'
import { useFilterNames } from './schedule-filters.tsx'
import type { Filters } from './schedule-view.ts'
import { columnKeys, type TableLook } from './table-look.ts'
import styles from './schedule.module.css'

/** Columns and density, one's usual view, and what is on screen as a file. */
export function ScheduleTools({
  rows,
  look,
  filters,
  people,
  now,
}: {
  rows: readonly ScheduleRow[]
  look: TableLook
  filters: Filters
  people: Schedule['people']
  now: string
}) {
  const words = useWords()
  return (
    <div className="row no-print row-top">
      <details className={styles.look}>
        <summary>{words('schedule.columns')}</summary>
        <div className="stack stack-tight">
          {columnKeys.map((key) => (
            <Checkbox
              key={key}
              name={`column-${key}`}
              label={words('schedule.columnNamed', { name: words(`schedule.${key}`) })}
              checked={look.shown.includes(key)}
              onChange={() => look.toggle(key)}
            />
          ))}
          <Checkbox
            name="dense"
            label={words('schedule.dense')}
            checked={look.dense}
            onChange={(event) => look.setDense(event.target.checked)}
          />
        </div>
      </details>
      <UsualView />
      <SaveFile rows={rows} look={look} filters={filters} people={people} now={now} />
      <p className="quiet small">{words('schedule.share', { count: rows.length })}</p>
    </div>
  )
}

function UsualView() {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const here = useSearchParams().toString()
  const [usual, setUsual] = useRemembered<string | null>('usual', null)
  return (
    <>
      {usual !== here && (
        <Button
          size="small"
          onClick={() => {
            setUsual(here)
            confirm(words('schedule.usualKept'))
          }}
        >
          {words('schedule.keepUsual')}
        </Button>
      )}
      {usual !== null && usual !== here && (
        <ButtonLink
          size="small"
          scroll={false}
          href={usual === '' ? `/l/${lab.short}/schedule` : `/l/${lab.short}/schedule?${usual}`}
        >
          {words('schedule.goUsual')}
        </ButtonLink>
      )}
    </>
  )
}

function SaveFile({
  rows,
  look,
  filters,
  people,
  now,
}: {
  rows: readonly ScheduleRow[]
  look: TableLook
  filters: Filters
  people: Schedule['people']
  now: string
}) {
  const words = useWords()
  const lab = useLaboratory()
  const { decimalSign } = useLaboratoryFormat()
  const columns = useScheduleColumns(look.shown)
  const names = useFilterNames(rows, people, filters)
  const sort = useSearchParams().get('sort') ?? ''
  function save() {
    const cells = fileCells(columns, rows, sort)
    const text = csvOf(cells.heads, cells.rows, decimalSign)
    const address = URL.createObjectURL(new Blob([text], { type: 'text/csv;charset=utf-8' }))
    const link = document.createElement('a')
    link.href = address
    link.download = csvName(
      lab.short,
      names.map((name) => name.text),
      dayOf(now, lab.zone),
    )
    link.click()
    URL.revokeObjectURL(address)
  }
  return (
    <Button size="small" onClick={save} disabled={rows.length === 0}>
      {words('schedule.saveFile')}
    </Button>
  )
}
