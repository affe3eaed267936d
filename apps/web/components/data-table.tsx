'use client'

import { useMemo, useRef, type KeyboardEvent, type ReactNode } from 'react'
import { useSearchParam } from '#lib/search-param.ts'
import { useWords } from '#lib/words.ts'
import { Button } from './button.tsx'
import { Icon } from './icon.tsx'
import { choose, extend, nextSort, readSort, sortRows, type Anchor, type SortKey } from './table-order.ts'
import styles from './data-table.module.css'

export type Column<Row> = {
  readonly key: string
  readonly head: ReactNode
  /** Stands in the head, once; the cells hold digits only. */
  readonly unit?: string
  readonly cell: (row: Row) => ReactNode
  /** Makes the column sortable. */
  readonly sort?: (row: Row) => SortKey
  /** Right-aligned figures of one width. */
  readonly number?: boolean
}

export type Selection = {
  readonly chosen: ReadonlySet<string>
  readonly onChange: (chosen: ReadonlySet<string>) => void
  /** What a row is, for the box beside it: "disc 10-3". */
  readonly nameOf: (id: string) => string
  /** Acts on the chosen rows, beside their count. */
  readonly actions?: ReactNode
  /** Enter on a row's box, which chooses nothing by itself: goes on with the chosen rows. */
  readonly onEnter?: () => void
}

/**
 * A real table. The first column names the row and stays when scrolling sideways; the head stays when scrolling down in a
 * `tall` one. The order stands in the address under `sortParam`. Without rows, `empty` takes the place of head and rows.
 */
export function DataTable<Row>({
  caption,
  captionHidden = false,
  columns,
  rows,
  idOf,
  empty,
  selection,
  sortParam = 'sort',
  tall = false,
}: {
  caption: string
  captionHidden?: boolean
  columns: readonly Column<Row>[]
  rows: readonly Row[]
  idOf: (row: Row) => string
  empty: ReactNode
  selection?: Selection
  sortParam?: string
  tall?: boolean
}) {
  const [sort, setSort] = useSearchParam(sortParam)
  const ordered = useMemo(() => {
    const wanted = readSort(sort)
    const keyOf = columns.find(({ key }) => key === wanted?.key)?.sort
    return wanted === undefined || keyOf === undefined ? rows : sortRows(rows, keyOf, wanted.direction)
  }, [rows, columns, sort])
  const ids = ordered.map(idOf)
  if (rows.length === 0 && (selection?.chosen.size ?? 0) === 0) return <>{empty}</>
  return (
    <div className="stack stack-tight">
      {selection !== undefined && <SelectionBar selection={selection} />}
      <div className={`${styles.frame} ${tall ? styles.tall : ''}`} tabIndex={0} role="group" aria-label={caption}>
        <table className={styles.table}>
          <caption className={captionHidden ? 'sr-only' : undefined}>{caption}</caption>
          <thead>
            <tr>
              {selection !== undefined && <AllBox ids={ids} selection={selection} />}
              {columns.map((column, index) => (
                <HeadCell
                  key={column.key}
                  column={column}
                  first={index === 0}
                  sort={sort}
                  onSort={() => setSort(nextSort(sort, column.key))}
                />
              ))}
            </tr>
          </thead>
          <Rows ordered={ordered} ids={ids} columns={columns} selection={selection} />
        </table>
      </div>
    </div>
  )
}

function HeadCell<Row>({
  column,
  first,
  sort,
  onSort,
}: {
  column: Column<Row>
  first: boolean
  sort: string
  onSort: () => void
}) {
  const wanted = readSort(sort)
  const direction = column.sort !== undefined && wanted?.key === column.key ? wanted.direction : undefined
  const content = (
    <>
      {column.head}
      {column.unit !== undefined && <span className={styles.unit}>{column.unit}</span>}
    </>
  )
  return (
    <th
      scope="col"
      aria-sort={direction}
      className={[first ? styles.first : '', column.number ? styles.number : ''].join(' ')}
    >
      {column.sort === undefined ? (
        content
      ) : (
        <button type="button" className={styles.sorter} onClick={onSort}>
          <span>{content}</span>
          <Icon name={direction === undefined ? 'sort' : direction === 'descending' ? 'down' : 'up'} size="0.8em" />
        </button>
      )}
    </th>
  )
}

function Rows<Row>({
  ordered,
  ids,
  columns,
  selection,
}: {
  ordered: readonly Row[]
  ids: readonly string[]
  columns: readonly Column<Row>[]
  selection?: Selection
}) {
  const last = useRef<string>(undefined)
  const shift = useRef(false)
  const keys = useRowKeys(ids, selection)
  return (
    <tbody>
      {ordered.map((row, at) => {
        const id = ids[at] ?? String(at)
        const chosen = selection?.chosen.has(id) ?? false
        return (
          <tr key={id} className={chosen ? styles.chosen : undefined}>
            {selection !== undefined && (
              <td className={styles.pick}>
                <label>
                  <input
                    type="checkbox"
                    aria-label={selection.nameOf(id)}
                    checked={chosen}
                    onClick={(event) => (shift.current = event.shiftKey)}
                    onKeyDown={(event) => {
                      shift.current = event.shiftKey
                      keys(event, id)
                    }}
                    onChange={() => {
                      selection.onChange(choose(ids, selection.chosen, id, last.current, shift.current))
                      last.current = id
                    }}
                  />
                </label>
              </td>
            )}
            {columns.map((column, index) =>
              index === 0 ? (
                <th key={column.key} scope="row" className={styles.first}>
                  {column.cell(row)}
                </th>
              ) : (
                <td key={column.key} className={column.number ? styles.number : undefined}>
                  {column.cell(row)}
                </td>
              ),
            )}
          </tr>
        )
      })}
    </tbody>
  )
}

/**
 * Keys on a row's box beside Space: arrows go up and down, with Shift they choose on the way; Ctrl or Cmd with A chooses all
 * rows shown; Enter goes on with the chosen ones.
 */
function useRowKeys(ids: readonly string[], selection?: Selection) {
  const anchor = useRef<Anchor>(undefined)
  return (event: KeyboardEvent<HTMLInputElement>, id: string) => {
    if (selection === undefined) return
    const { key } = event
    if (key === 'ArrowDown' || key === 'ArrowUp') {
      event.preventDefault()
      const row = event.currentTarget.closest('tr')
      const other = key === 'ArrowDown' ? row?.nextElementSibling : row?.previousElementSibling
      const to = ids[ids.indexOf(id) + (key === 'ArrowDown' ? 1 : -1)]
      if (to === undefined) return
      other?.querySelector<HTMLInputElement>('input[type=checkbox]')?.focus()
      if (!event.shiftKey) return void (anchor.current = undefined)
      anchor.current ??= { id, base: selection.chosen }
      return selection.onChange(extend(ids, anchor.current, to))
    }
    if (key !== 'Shift') anchor.current = undefined
    if (key === 'a' && (event.ctrlKey || event.metaKey)) {
      event.preventDefault()
      selection.onChange(new Set([...selection.chosen, ...ids]))
    } else if (key === 'Enter' && selection.onEnter !== undefined && selection.chosen.size > 0) {
      event.preventDefault()
      selection.onEnter()
    }
  }
}

function AllBox({ ids, selection }: { ids: readonly string[]; selection: Selection }) {
  const words = useWords()
  const all = ids.length > 0 && ids.every((id) => selection.chosen.has(id))
  return (
    <td className={`${styles.pick} ${styles.pickHead}`}>
      <label>
        <input
          type="checkbox"
          aria-label={words('common.chooseAll')}
          checked={all}
          onChange={() => {
            const next = new Set(selection.chosen)
            for (const id of ids) {
              if (all) next.delete(id)
              else next.add(id)
            }
            selection.onChange(next)
          }}
        />
      </label>
    </td>
  )
}

/** Its count is always shown, and Clear stands beside it; it survives filters and pages because the screen holds it. */
function SelectionBar({ selection }: { selection: Selection }) {
  const words = useWords()
  const count = selection.chosen.size
  return (
    <div className={`${styles.selection} no-print`}>
      <span role="status">{words('common.chosen', { count })}</span>
      {count > 0 && (
        <>
          <Button size="small" onClick={() => selection.onChange(new Set())}>
            {words('common.clearChosen')}
          </Button>
          {selection.actions}
        </>
      )}
    </div>
  )
}
