import type { SignedSpecimen } from '@curebook/contract/signed-content'
import type { Sheet } from '../sheet.ts'
import { lookOf, naturalWidth, type Cell, type Column } from '../table-columns.ts'
import { drawTable } from '../table.ts'

/** What a column shows of a specimen. */
export type SpecimenColumn = Column & { readonly cell: (specimen: SignedSpecimen) => Cell }

/**
 * A row for each specimen. What does not fit beside each other goes on in a further table, with the codes again; `last`
 * stands at the end of the last one, with at least `lastWidth` points.
 */
export function drawSpecimenTable(
  sheet: Sheet,
  specimens: readonly SignedSpecimen[],
  table: {
    readonly name: string
    /** Columns that belong together stay together when one table cannot hold all. */
    readonly groups: readonly (readonly SpecimenColumn[])[]
    readonly last: readonly SpecimenColumn[]
    readonly lastWidth: number
  },
): void {
  const key: SpecimenColumn = {
    head: sheet.words.specimen,
    fit: true,
    cell: ({ code, label }) => ({
      text: [code, label].filter((part) => part !== '').join('\u00a0\u00a0'),
      strong: true,
    }),
  }
  const look = lookOf({ dense: true })
  const widthOf = (column: SpecimenColumn) => naturalWidth(sheet, look, column, specimens.map(column.cell))
  const room = sheet.width - widthOf(key)
  const together = packed(table.groups.flat(), widthOf, room, table.lastWidth)
  const parts =
    together.length === 1
      ? together
      : table.groups
          .filter((group) => group.length > 0)
          .flatMap((group, index, all) => packed(group, widthOf, room, index === all.length - 1 ? table.lastWidth : 0))
  parts.forEach((part, index) => {
    const columns = [key, ...part, ...(index === parts.length - 1 ? table.last : [])]
    drawTable(sheet, {
      dense: true,
      caption: parts.length === 1 ? table.name : sheet.words.partOf(table.name, index + 1, parts.length),
      columns,
      rows: specimens.map((specimen) => columns.map(({ cell }) => cell(specimen))),
    })
  })
}

/** As few tables as the width allows, and those about as wide as each other: none is left with a single column. */
function packed<Item>(items: readonly Item[], widthOf: (item: Item) => number, room: number, last: number): Item[][] {
  const widest = filled(items, widthOf, room, last)
  const least = items.reduce((sum, item) => sum + widthOf(item), last) / widest.length
  const steps = 20
  for (let step = 0; step < steps; step += 1) {
    const narrower = filled(items, widthOf, least + ((room - least) * step) / steps, last)
    if (narrower.length === widest.length) return narrower
  }
  return widest
}

/** Filled from the first; room for the last columns is kept in the last only. */
function filled<Item>(items: readonly Item[], widthOf: (item: Item) => number, room: number, last: number): Item[][] {
  const parts: Item[][] = [[]]
  let used = 0
  items.forEach((item, index) => {
    const width = widthOf(item)
    const keep = index === items.length - 1 ? last : 0
    if (used + width + keep > room && parts.at(-1)!.length > 0) {
      parts.push([])
      used = 0
    }
    parts.at(-1)!.push(item)
    used += width
  })
  return parts
}
