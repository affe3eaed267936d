import type { QueryResultRow } from 'pg'
import type { LaboratorySql, LaboratoryTransaction } from '#platform/laboratory'

/** What the bench needs of a transaction: the same statements run over bare `pg` when posting, over Prisma when recomputing. */
export type BenchSql = Pick<LaboratorySql, 'actor' | 'at' | 'record'> & {
  rows<R extends QueryResultRow>(text: string, values?: unknown[]): Promise<R[]>
}

export function benchSql(sql: LaboratorySql): BenchSql {
  return {
    actor: sql.actor,
    at: sql.at,
    record: sql.record,
    rows: async (text, values) => (await sql.query(text, values)).rows as never,
  }
}

/** The same over a Prisma transaction, so that another feature's change recomputes in its own transaction. */
export function benchSqlOf(tx: LaboratoryTransaction): BenchSql {
  return {
    actor: tx.actor,
    at: tx.at,
    record: tx.record,
    rows: async (text, values = []) => (await tx.prisma.$queryRawUnsafe(text, ...values)) as never,
  }
}
