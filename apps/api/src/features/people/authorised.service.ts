import type { RowsSql } from '#platform/sql-rows'
import { dayIn } from '#platform/laboratory-day'
import { notAuthorised } from './authorisation-rules.ts'
import { findGranted } from './authorisations.repository.ts'

type Asked = {
  readonly membershipId: string
  readonly name: string
  readonly activity: string
  /** The activity in words, for the sentence. */
  readonly label: string
  readonly day: string
}

/** Why a person may not do an activity on a day, in a sentence; null when they may. */
export async function notAuthorisedIn(
  sql: RowsSql,
  { membershipId, name, activity, label, day }: Asked,
): Promise<string | null> {
  const granted = await findGranted(sql, [activity])
  const spans = granted.filter((one) => one.membershipId === membershipId)
  return notAuthorised(name, label, day, { binds: granted.length > 0, spans })
}

export type Releaser = { readonly membershipId: string; readonly name: string }

/** Managers and engineers who may release today: all of them, or those authorised for it where anybody is. */
export async function findReleasers(sql: RowsSql): Promise<readonly Releaser[]> {
  const [people, granted, today] = await Promise.all([
    sql.rows<Releaser>(
      `select id as "membershipId", name from membership
        where lab_id = $1::uuid and roles && array['manager', 'engineer'] and valid_from <= $2::timestamptz
          and (valid_until is null or valid_until > $2::timestamptz) order by name, id`,
      [sql.actor.labId, sql.at],
    ),
    findGranted(sql, ['release']),
    dayOfInstant(sql, sql.at),
  ])
  return people.filter(
    ({ membershipId, name }) =>
      notAuthorised(name, 'release', today, {
        binds: granted.length > 0,
        spans: granted.filter((one) => one.membershipId === membershipId),
      }) === null,
  )
}

/** Names of the managers of today: who records calibrations. */
export async function findManagers(sql: RowsSql): Promise<readonly string[]> {
  const rows = await sql.rows<{ name: string }>(
    `select name from membership
      where lab_id = $1::uuid and 'manager' = any(roles) and valid_from <= $2::timestamptz
        and (valid_until is null or valid_until > $2::timestamptz) order by name, id`,
    [sql.actor.labId, sql.at],
  )
  return rows.map(({ name }) => name)
}

/** The zone is asked once a transaction: a posted reading needs the day of each instrument that it rests on. */
const zones = new WeakMap<RowsSql, Promise<string>>()

/** The day of an instant on the laboratory's wall calendar. */
export async function dayOfInstant(sql: RowsSql, at: Date): Promise<string> {
  const known = zones.get(sql) ?? findZone(sql)
  zones.set(sql, known)
  return dayIn(await known, at)
}

async function findZone(sql: RowsSql): Promise<string> {
  const [found] = await sql.rows<{ zone: string }>('select zone from laboratory where id = $1::uuid', [sql.actor.labId])
  return found!.zone
}
