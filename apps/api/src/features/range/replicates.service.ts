import type { ReplicateGroup, Replicates } from '@curebook/contract/replicates'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { Actor } from '#platform/actor'
import type { Laboratory } from '#platform/laboratory'
import { rowsSqlOf, type RowsSql } from '#platform/sql-rows'
import { findPanelTests } from './panel-tests.repository.ts'
import type { RangeContext, RangeService } from './range.service.ts'
import { panelGroups, seriesGroups } from './replicate-groups.ts'
import { findTestFacts } from './replicates.repository.ts'

export type ReplicatesService = ReturnType<typeof createReplicatesService>
export type { ReplicateGroup }
export { isAtContent, seriesPractice } from './asked-counts.ts'

/** How far replicates lie apart, of the series and of the tests beside it: told when read, never stored. */
export function createReplicatesService({
  laboratory,
  range,
  methods,
}: {
  laboratory: Laboratory
  range: RangeService
  methods: readonly MethodDeclaration[]
}) {
  const read = (actor: Actor, designId: string, number?: number): Promise<Replicates> =>
    laboratory.inLaboratory(actor, async (tx) =>
      replicatesIn(rowsSqlOf(tx), await range.contextIn(tx, designId, number), methods),
    )
  return { read }
}

/** The same of a range that is at hand. */
export async function replicatesIn(
  sql: RowsSql,
  { design, rules, computed }: Pick<RangeContext, 'design' | 'rules' | 'computed'>,
  methods: readonly MethodDeclaration[],
): Promise<Replicates> {
  const rows = await findPanelTests(sql, {
    designId: design.id,
    upTo: design.revision,
    methodKeys: methods.filter(({ place }) => place === 'panel').map(({ key }) => key),
  })
  const ofCurves = computed.range.curves.flatMap(({ points }) => points.map(({ testId }) => testId))
  const tests = await findTestFacts(sql, [...new Set([...ofCurves, ...rows.map(({ testId }) => testId)])])
  const facts = { methods, limits: rules.limits, tests }
  const { groups, apart } = panelGroups(rows, facts)
  return { groups: [...seriesGroups(computed, facts), ...groups], apart }
}
