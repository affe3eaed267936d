import type { LaboratoryTransaction } from '#platform/laboratory'
import type { Laboratory } from '#platform/laboratory'
import { createActCorrectionsService } from './act-corrections.service.ts'
import { createBenchQueueService } from './bench-queue.service.ts'
import type { BenchServices } from './bench.routes.ts'
import { createCastingService } from './casting.service.ts'
import { createEndingService } from './ending.service.ts'
import { createPutInService } from './put-in.service.ts'
import { createReadingsService } from './readings.service.ts'
import { settleTests, type SettleContext } from './settle.ts'
import { rowsSqlOf } from '#platform/sql-rows'
import { createStepEventsService } from './step-events.service.ts'
import { createTestViewService } from './test-view.service.ts'
import { createWithdrawalsService } from './withdrawals.service.ts'
import { topicsOf } from './topics.ts'

/** Everything of the bench, made together: it stands on one settling of tests. */
export function createBenchServices({
  laboratory,
  methods,
  build,
}: { laboratory: Laboratory } & SettleContext): BenchServices & {
  recomputeRevision: (tx: LaboratoryTransaction, revisionId: string) => Promise<void>
} {
  const context = { methods, build }

  /** An entered value changed: what was computed from it is computed again; earlier results stay, superseded. */
  async function recomputeRevision(tx: LaboratoryTransaction, revisionId: string): Promise<void> {
    const sql = rowsSqlOf(tx)
    const ids = await sql.rows<{ id: string }>(
      `select n.test_id as id from test_now n join test_event t on t.lab_id = n.lab_id and t.id = n.test_id
        where n.lab_id = $1::uuid and t.design_revision_id = $2::uuid order by n.test_id for update of n`,
      [tx.actor.labId, revisionId],
    )
    const settled = await settleTests(
      sql,
      context,
      ids.map(({ id }) => id),
      'An entered value of the design changed',
    )
    for (const { record, rows } of settled)
      if (rows.length > 0)
        tx.record({
          action: 'result:recompute',
          subjectKind: 'test_event',
          subjectId: record.id,
          projectId: record.projectId,
          topics: topicsOf(record),
          rows: [...rows],
        })
  }

  return {
    queue: createBenchQueueService({ laboratory, methods }),
    casting: createCastingService({ laboratory, methods }),
    putIn: createPutInService({ laboratory, methods }),
    view: createTestViewService({ laboratory, methods }),
    readings: createReadingsService({ laboratory, methods, build }),
    withdrawals: createWithdrawalsService({ laboratory, methods, build }),
    stepEvents: createStepEventsService({ laboratory, methods, build }),
    actCorrections: createActCorrectionsService({ laboratory, methods, build }),
    ending: createEndingService({ laboratory }),
    recomputeRevision,
  }
}
