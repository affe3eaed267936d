import type { TakeOut } from '@curebook/contract/loads'
import type { RowsSql } from '#platform/sql-rows'
import { spanWords } from '#platform/span-words'
import { zoneOf } from './excursions.ts'
import { instantWords } from './instant-words.ts'
import type { LoadAtHand } from './load-view.ts'
import { openLinked } from './linked-deviations.repository.ts'
import { topicsOf } from './topics.ts'

/**
 * A load that is let out before its check specimens are constant is kept as it is: the loss may be understated, and a manager
 * or engineer decides on it. One deviation for the specimens that were let out together; it stands in the report of each of
 * their clients, and so names none of them: what, when, after how long and by whom. The free word stays inside.
 * @param load as it stood before
 * @param moved the tests whose taking out was confirmed just now
 * @param at when they were taken out
 */
export async function openWithoutConstantMass(
  sql: RowsSql,
  load: LoadAtHand,
  moved: readonly string[],
  { word, at }: Pick<TakeOut, 'word'> & { readonly at: Date },
): Promise<string | null> {
  if (moved.length === 0 || load.constantMass === null || load.constantMass.reached) return null
  const [place] = await sql.rows<{ code: string }>(
    'select code from instrument where lab_id = $1::uuid and id = $2::uuid',
    [sql.actor.labId, load.instrumentId],
  )
  const many = `${moved.length} ${moved.length === 1 ? 'specimen' : 'specimens'}`
  const when = instantWords(await zoneOf(sql), at.toISOString())
  const since = load.specimens.filter(({ testId }) => moved.includes(testId)).map((one) => one.since)
  const opened = await openLinked(sql, {
    text: `${place!.code}: ${many} let out without constant mass on ${when} after ${stayedWords(since, at)}, by ${sql.actor.name}. ${load.constantMass.shared}`,
    insideWord: word === '' ? null : word,
    instrumentId: load.instrumentId,
    tests: moved.map((testId) => ({ testId, loadId: load.id })),
  })
  sql.record({
    action: 'deviation:open',
    subjectKind: 'deviation',
    subjectId: opened.id,
    topics: [
      'deviations',
      'loads',
      ...load.specimens
        .filter(({ testId }) => moved.includes(testId))
        .flatMap(({ testId, designId }) => topicsOf({ id: testId, designId })),
    ],
    rows: opened.rows,
  })
  return opened.id
}

/** How long those let out had been in: one time, or the shortest and the longest. */
function stayedWords(since: readonly string[], at: Date): string {
  const seconds = since.map((from) => (at.getTime() - Date.parse(from)) / 1000)
  const [shortest, longest] = [spanWords(Math.min(...seconds)), spanWords(Math.max(...seconds))]
  return shortest === longest ? longest : `${shortest} to ${longest}`
}
