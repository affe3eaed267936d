import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { systemActor } from '#platform/actor'
import type { Laboratory, LaboratorySql } from '#platform/laboratory'
import { rowsSql, type RowsSql } from '#platform/sql-rows'
import { checkProjections, type ProjectionDifference, rebuildProjections } from './projections.ts'
import { type Replay, replayResults } from './replay.ts'

/** Thrown to take back what a check wrote on its way. */
class TakenBack extends Error {}

/** What whoever runs the server can have done to the bench of any laboratory; nothing of it is anybody's act. */
export function createMaintenanceService({
  laboratory,
  methods,
}: {
  laboratory: Laboratory
  methods: readonly MethodDeclaration[]
}) {
  const inRows = <T>(labId: string, work: (sql: RowsSql) => Promise<T>): Promise<T> =>
    // No row is written in anybody's name here, so that the product itself may read and rebuild.
    laboratory.inLaboratorySql(systemActor(labId), (sql) => work(rowsSql(sql as unknown as LaboratorySql)))

  /** Where the projections differ from the records. Rebuilds them in a transaction that is taken back. */
  async function check(labId: string): Promise<readonly ProjectionDifference[]> {
    let found: readonly ProjectionDifference[] = []
    const work = inRows(labId, async (sql) => {
      found = await checkProjections(sql, methods)
      throw new TakenBack()
    })
    await work.catch((error: unknown) => {
      if (!(error instanceof TakenBack)) throw error
    })
    return found
  }

  return {
    laboratoryIds: laboratory.laboratoryIds,
    checkProjections: check,
    rebuildProjections: (labId: string): Promise<void> => inRows(labId, (sql) => rebuildProjections(sql, methods)),
    /** Every stored result against the present computation. */
    replayResults: (labId: string): Promise<Replay> => inRows(labId, (sql) => replayResults(sql, methods)),
  }
}
