import type { AskedCount } from '@curebook/contract/panel-tests'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { EditionParameters, MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { askedReplicates } from '@curebook/trade/procedure/replicates'
import { decimal, plainDigits } from '@curebook/trade/quantity/decimal'
import type { RowsSql } from '#platform/sql-rows'
import { findCountedTests, type CountedTestRow } from './asked-counts.repository.ts'

/** Specimens at each content of a series, where an edition says nothing of them: common practice, no source. */
export const seriesPractice = 3

/** Counts at this content; null: tests that stand at none. */
export function isAtContent({ emulsionPercent }: AskedCount, content: string | null): boolean {
  if (emulsionPercent === null || content === null) return emulsionPercent === content
  return decimal(emulsionPercent).eq(content)
}

/**
 * How many tests of a method are asked for at a content, by the editions of its tests; where none of them says it, in a
 * series as practised, else null.
 */
export function askedAt(
  counts: readonly AskedCount[],
  method: Pick<MethodDeclaration, 'key' | 'place'> | undefined,
  content: string | null,
): number | null {
  const own = counts.find((count) => count.methodKey === method?.key && isAtContent(count, content))
  return own?.asked ?? (method?.place === 'series' ? seriesPractice : null)
}

/**
 * How many tests of each method and content count, beside how many their editions ask for: told, and never a reason to refuse.
 * Tests at one content that are no replicates of each other are left out.
 */
export async function askedCountsIn(
  sql: RowsSql,
  methods: readonly MethodDeclaration[],
  { id, revision }: { readonly id: string; readonly revision: number },
): Promise<readonly AskedCount[]> {
  return askedCounts(methods, await findCountedTests(sql, id, revision))
}

/** The same of tests at hand. Where they stand under editions that ask for different numbers, the greatest is asked for. */
export function askedCounts(
  methods: readonly MethodDeclaration[],
  tests: readonly CountedTestRow[],
): readonly AskedCount[] {
  const groups = new Map<string, AskedCount>()
  for (const { methodKey, emulsionPercent, state, takesPart, hasResult, parameters } of tests) {
    const method = methodByKey(methods, methodKey)
    if (!method || method.noReplicates !== undefined || !takesPart) continue
    const content = emulsionPercent === null ? null : plainDigits(decimal(emulsionPercent))
    const key = `${methodKey} ${content ?? ''}`
    const none = {
      methodKey,
      methodName: method.name,
      emulsionPercent: content,
      counted: 0,
      open: 0,
      voided: 0,
      asked: 0,
    }
    const before = groups.get(key) ?? none
    const isVoid = state === 'void' || state === 'replaced'
    groups.set(key, {
      ...before,
      counted: before.counted + Number(state === 'done' && hasResult),
      open: before.open + Number(!isVoid && state !== 'done'),
      voided: before.voided + Number(isVoid),
      asked: Math.max(before.asked, askedReplicates(JSON.parse(parameters) as EditionParameters) ?? 0),
    })
  }
  return [...groups.values()].filter(({ asked }) => asked > 0)
}
