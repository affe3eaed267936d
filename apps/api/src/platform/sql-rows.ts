import type { QueryResultRow } from 'pg'
import type { LaboratorySql, LaboratoryTransaction } from './laboratory.ts'

/** A transaction that gives rows: the same statements run over bare `pg` where it must be fast, and over Prisma elsewhere. */
export type RowsSql = Pick<LaboratorySql, 'actor' | 'at' | 'record'> & {
  rows<R extends QueryResultRow>(text: string, values?: unknown[]): Promise<R[]>
}

export function rowsSql(sql: LaboratorySql): RowsSql {
  return {
    actor: sql.actor,
    at: sql.at,
    record: sql.record,
    rows: async (text, values) => (await sql.query(text, values)).rows as never,
  }
}

/** The same over a Prisma transaction, so that another feature's change recomputes in its own transaction. */
export function rowsSqlOf(tx: LaboratoryTransaction): RowsSql {
  return {
    actor: tx.actor,
    at: tx.at,
    record: tx.record,
    rows: async (text, values = []) => (await tx.prisma.$queryRawUnsafe(text, ...values)) as never,
  }
}
