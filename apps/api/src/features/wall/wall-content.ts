import type { WallPerson, WallShown, WallWindow } from '@curebook/contract/wall'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { atWorkMs, lastWorkOf, lateShownMs, nextMs, soonMs } from '@curebook/trade/procedure/wall'
import type { RowsSql } from '#platform/sql-rows'
import {
  type ActRow,
  findActsSince,
  findOvens,
  findSettings,
  findStayActs,
  findWindows,
  findWorked,
  type WallSettings,
  type WindowRow,
} from './wall-content.repository.ts'
import { ovensOf, type Standing, standingOf } from './wall-ovens.ts'

/**
 * What stands on the wall: no project, no client, no result, no value of a specimen, and no id by which one could be asked
 * for. Everything is a time; what is late or soon, the screen says by its own clock.
 */
export async function wallOf(
  sql: RowsSql,
  methods: readonly MethodDeclaration[],
  screen: string,
): Promise<Omit<WallShown, 'build'>> {
  const { name, zone, language, decimalSign, wallNames } = await findSettings(sql)
  const from = (ms: number) => new Date(sql.at.getTime() + ms)
  const windows = await findWindows(sql, from(-lateShownMs), from(soonMs), from(nextMs))
  const worked = await findWorked(sql)
  const acts = await findStayActs(
    sql,
    worked.map(({ testId }) => testId),
  )
  const standing = standingOf(methods, worked, acts)
  const ovens = await findOvens(sql)
  const people = peopleOf(methods, await findActsSince(sql, from(-atWorkMs)), wallNames)
  const codeOf = new Map(ovens.map(({ id, code }) => [id, code]))
  return {
    state: 'shown',
    screen,
    laboratory: name,
    now: sql.at.toISOString(),
    zone,
    language,
    decimalSign,
    names: wallNames,
    windows: windows.map((row) => toWindow(methods, row, standing, codeOf)),
    ovens: ovensOf(ovens, standing),
    people: wallNames === 'none' ? [] : people,
    atWork: people.length,
  }
}

function toWindow(
  methods: readonly MethodDeclaration[],
  row: WindowRow,
  standing: readonly Standing[],
  codeOf: ReadonlyMap<string, string>,
): WallWindow {
  const stands = standing.find(({ testId, instrumentId }) => testId === row.testId && instrumentId !== null)
  return {
    code: row.code,
    label: row.label,
    stepTitle: titleOf(methods, row),
    place: codeOf.get(stands?.instrumentId ?? '') ?? row.placeName,
    opensAt: row.opensAt?.toISOString() ?? null,
    closesAt: row.closesAt?.toISOString() ?? null,
  }
}

function peopleOf(
  methods: readonly MethodDeclaration[],
  acts: readonly ActRow[],
  names: WallSettings['wallNames'],
): WallPerson[] {
  const shownAs = new Map(acts.map((act) => [act.personId, names === 'full' ? act.name : act.initials]))
  return lastWorkOf(acts.map(({ at, ...act }) => ({ ...act, at: at.toISOString() }))).map((work) => ({
    shownAs: shownAs.get(work.personId)!,
    stepTitle: titleOf(methods, work),
    place: work.place,
    since: work.since,
    lastAt: work.at,
  }))
}

/** What is read of a load belongs to no method. */
const loadTitles: Readonly<Record<string, string>> = {
  temperature: 'Reading a temperature',
  'warm-mass': 'Weighing warm',
}

function titleOf(
  methods: readonly MethodDeclaration[],
  { methodKey, stepKey }: { methodKey: string | null; stepKey: string },
): string {
  if (methodKey === null) return loadTitles[stepKey] ?? stepKey
  return methodByKey(methods, methodKey)?.steps.find(({ key }) => key === stepKey)?.title ?? stepKey
}
