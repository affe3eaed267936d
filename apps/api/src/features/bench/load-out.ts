import type { TakeOut } from '@curebook/contract/loads'
import type { RowsSql } from '#platform/sql-rows'
import type { LoadAtHand } from './load-view.ts'
import { openLinked } from './linked-deviations.repository.ts'
import { topicsOf } from './topics.ts'

/**
 * A load that is let out before its check specimens are constant is kept as it is: the loss may be understated, and a manager
 * or engineer decides on it. One deviation for the specimens that were let out together; it stands in the report of each of
 * their clients, and so names none of them.
 * @param load as it stood before
 * @param moved the tests whose taking out was confirmed just now
 */
export async function openWithoutConstantMass(
  sql: RowsSql,
  load: LoadAtHand,
  moved: readonly string[],
  { word }: Pick<TakeOut, 'word'>,
): Promise<string | null> {
  if (moved.length === 0 || load.constantMass === null || load.constantMass.reached) return null
  const [place] = await sql.rows<{ code: string }>(
    'select code from instrument where lab_id = $1::uuid and id = $2::uuid',
    [sql.actor.labId, load.instrumentId],
  )
  const many = `${moved.length} ${moved.length === 1 ? 'specimen' : 'specimens'}`
  const said = word === '' ? '' : ` ${sql.actor.name}: ${word.replace(/[.]?$/, '.')}`
  const opened = await openLinked(sql, {
    text: `${place!.code}: ${many} let out without constant mass. ${load.constantMass.shared}${said}`,
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
