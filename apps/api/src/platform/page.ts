import { invalidField } from './problem.ts'

/** Where a page of a list begins: after the row of this time and id (newest first; the id only parts rows of one time). */
export type Position = { at: Date; id: string }

/** What comes after a position, newest first, as a Prisma `where`. */
export function afterPosition(column: 'at' | 'createdAt', cursor: string | undefined) {
  if (cursor === undefined) return {}
  const { at, id } = positionOf(cursor)
  return { OR: [{ [column]: { lt: at } }, { [column]: at, id: { lt: id } }] }
}

/** A page out of one row more than it holds: the cursor of the next page, or null on the last. */
export function pageFrom<T>(
  rows: readonly T[],
  limit: number,
  position: (row: T) => Position,
): { rows: readonly T[]; next: string | null } {
  const page = rows.slice(0, limit)
  const last = page.at(-1)
  return { rows: page, next: rows.length > limit && last ? cursorOf(position(last)) : null }
}

function cursorOf({ at, id }: Position): string {
  return Buffer.from(`${at.toISOString()} ${id}`).toString('base64url')
}

function positionOf(cursor: string): Position {
  const [time = '', id = ''] = Buffer.from(cursor, 'base64url').toString().split(' ')
  const at = new Date(time)
  if (Number.isNaN(at.getTime()) || !/^[0-9a-f-]{36}$/.test(id))
    throw invalidField('cursor', 'Send the cursor exactly as the page before gave it.')
  return { at, id }
}
