import type { SearchAnswer } from '@curebook/contract/search'
import type { Actor } from '#platform/actor'
import type { Laboratory } from '#platform/laboratory'
import { rowsSql } from '#platform/sql-rows'
import { findAnything } from './search.repository.ts'

export type SearchService = ReturnType<typeof createSearchService>

/** Specimens, samples, projects, designs and people by what is typed; whoever may search may read all of these. */
export function createSearchService({ laboratory }: { laboratory: Laboratory }) {
  const find = (actor: Actor, q: string): Promise<SearchAnswer> =>
    laboratory.inLaboratorySql(actor, async (sql) => ({ items: await findAnything(rowsSql(sql), q) }))
  return { find }
}
