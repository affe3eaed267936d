'use client'

import type { ScheduleRow } from '@curebook/contract/schedule'
import { useMemo } from 'react'
import { Button } from '#components/button.tsx'
import { DataTable } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { useWords } from '#lib/words.ts'
import { useScheduleColumns } from './schedule-columns.tsx'
import { hasNextAct } from './schedule-view.ts'
import type { TableLook } from './table-look.ts'
import styles from './schedule.module.css'

/** Tests in work, to be chosen by keyboard or pointer and given to a person. Chosen rows stay chosen under a filter. */
export function ScheduleTable({
  rows,
  all,
  look,
  chosen,
  onChosen,
  onGive,
  onClear,
}: {
  rows: readonly ScheduleRow[]
  all: readonly ScheduleRow[]
  look: TableLook
  chosen: ReadonlySet<string>
  onChosen: (chosen: ReadonlySet<string>) => void
  onGive?: (ids: readonly string[]) => void
  onClear: () => void
}) {
  const words = useWords()
  const columns = useScheduleColumns(look.shown, onGive)
  const open = all.filter(hasNextAct).length
  const names = useMemo(
    () =>
      new Map(
        all.map((row) => [
          row.testId,
          words('schedule.rowName', { label: row.label, code: row.code, step: row.stepTitle }),
        ]),
      ),
    [all, words],
  )
  return (
    <div className={`stack stack-tight ${look.dense ? styles.dense : ''}`}>
      <DataTable
        caption={words('schedule.caption', { count: rows.length, all: rows.every(hasNextAct) ? open : all.length })}
        columns={columns}
        rows={rows}
        idOf={({ testId }) => testId}
        selection={
          onGive && {
            chosen,
            onChange: onChosen,
            nameOf: (id) => names.get(id) ?? id,
            onEnter: () => onGive([...chosen]),
            actions: (
              <Button size="small" tone="main" onClick={() => onGive([...chosen])}>
                {words('schedule.giveChosen', { count: chosen.size })}
              </Button>
            ),
          }
        }
        tall
        empty={
          all.length === 0 ? (
            <EmptyState title={words('schedule.none')}>{words('schedule.noneMore')}</EmptyState>
          ) : (
            <EmptyState
              title={words('schedule.noMatch')}
              action={<Button onClick={onClear}>{words('schedule.clearFilters')}</Button>}
            />
          )
        }
      />
      {onGive !== undefined && rows.length > 0 && <p className="quiet small no-print">{words('schedule.keys')}</p>}
    </div>
  )
}
