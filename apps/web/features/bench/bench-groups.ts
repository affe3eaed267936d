import type { BenchTask } from '@curebook/contract/bench'
import { urgencyOf, urgencyOrder, type Urgency } from '@curebook/trade/procedure/urgency'

/** Specimens that wait for the same act of the same step: one row on the bench, opened as a rack or as a list to confirm. */
export type TaskGroup = {
  readonly key: string
  readonly urgency: Urgency
  readonly first: BenchTask
  readonly tasks: readonly BenchTask[]
  /** The window that ends (else begins) first among them. */
  readonly opensAt: string | null
  readonly closesAt: string | null
}
export type UrgencySection = { readonly urgency: Urgency; readonly groups: readonly TaskGroup[] }

/** Sections by urgency, most urgent first; the windows are judged anew at `now` (ms), so rows move on by themselves. */
export function groupTasks(tasks: readonly BenchTask[], now: number): readonly UrgencySection[] {
  const at = new Date(now).toISOString()
  const groups = new Map<string, BenchTask[]>()
  for (const task of tasks) {
    const urgency = urgencyOf(task.opensAt, task.closesAt, at)
    const key = [urgency, task.methodKey, task.stepKey, task.act, task.designId].join(' ')
    groups.set(key, [...(groups.get(key) ?? []), task])
  }
  const made = [...groups].map(([key, own]) => groupOf(key, own.toSorted(bySoonest)))
  return urgencyOrder
    .map((urgency) => ({
      urgency,
      groups: made.filter((group) => group.urgency === urgency).toSorted((a, b) => bySoonest(a.first, b.first)),
    }))
    .filter(({ groups }) => groups.length > 0)
}

function groupOf(key: string, tasks: readonly BenchTask[]): TaskGroup {
  const first = tasks[0] as BenchTask
  return {
    key,
    urgency: key.split(' ')[0] as Urgency,
    first,
    tasks,
    opensAt: first.opensAt,
    closesAt: first.closesAt,
  }
}

type Kind = { readonly form: BenchTask['form']; readonly methodName: string; readonly labels: readonly string[] }

/**
 * Labels of a row by what is cast for them: batches of discs and of strips have the same. One kind alone is empty, its name
 * stands in the row already.
 */
export function kindsOf(tasks: readonly BenchTask[]): readonly Kind[] {
  const kinds = new Map<string, Kind>()
  for (const { castPlace, label } of tasks) {
    // An answer that a tablet kept from before names no method.
    if (castPlace?.methodName === undefined) return []
    const { methodKey, methodName, form } = castPlace
    kinds.set(methodKey, { form, methodName, labels: [...(kinds.get(methodKey)?.labels ?? []), label] })
  }
  return kinds.size > 1 ? [...kinds.values()] : []
}

/**
 * What ends first, then what begins first, then by the order of casting where it is to be cast, else by the place in the
 * design ("9-1" before "10-1").
 */
export function bySoonest(one: BenchTask, other: BenchTask): number {
  return (
    timeOf(one.closesAt) - timeOf(other.closesAt) ||
    timeOf(one.opensAt) - timeOf(other.opensAt) ||
    byCasting(one, other) ||
    one.label.localeCompare(other.label, 'en', { numeric: true }) ||
    one.code.localeCompare(other.code)
  )
}

/** Casting content after content, the day's drift would look like an effect of the binder: blocks come first. */
function byCasting({ castPlace: one }: BenchTask, { castPlace: other }: BenchTask): number {
  if (one === null || other === null) return 0
  return one.methodKey.localeCompare(other.methodKey) || one.ordinal - other.ordinal
}

function timeOf(iso: string | null): number {
  return iso === null ? 8.64e15 : Date.parse(iso)
}

type Place = Pick<BenchTask, 'testId' | 'methodKey' | 'stepKey' | 'act' | 'form' | 'designId'>

/** Where an act of many specimens is done: a rack for readings, a list to confirm for starts and ends, else the batch. */
export function placeOf(short: string, { testId, methodKey, stepKey, act, form, designId }: Place): string {
  if (act === 'reading' && form === 'batch') return testPlace(short, testId)
  if (act === 'reading')
    return `/l/${short}/bench/rack?${new URLSearchParams({ methodKey, stepKey, designId, test: testId })}`
  return `/l/${short}/bench/steps?${new URLSearchParams({ methodKey, stepKey, act, designId })}`
}

export function testPlace(short: string, testId: string): string {
  return `/l/${short}/bench/tests/${testId}`
}

/** Where the casting order of a design stands; undefined where nothing of the group is cast. */
export function castingPlace(short: string, { castPlace, designId }: BenchTask): string | undefined {
  return castPlace === null ? undefined : `/l/${short}/bench/casting/${designId}`
}

/**
 * The next test of the same person that waits for the same kind of act: after this batch, the next batch. A batch for a test
 * beside the series is followed by one of the same design and test only: the next of another would be other work.
 */
export function nextLike(
  tasks: readonly BenchTask[],
  current: { testId: string; methodKey: string; beside?: { designId: string; methodKey: string } | undefined },
) {
  const alike = tasks
    .filter(({ methodKey, act }) => methodKey === current.methodKey && act === 'reading')
    .filter(
      ({ designId, castPlace }) =>
        current.beside === undefined ||
        (designId === current.beside.designId && castPlace?.methodKey === current.beside.methodKey),
    )
  const others = alike.toSorted(bySoonest).filter(({ testId }) => testId !== current.testId)
  return others[0]
}

/** A sheet of paper for a step, of these specimens or all of the design. */
export function sheetPlace(
  short: string,
  {
    designId,
    methodKey,
    stepKey,
    codes = [],
  }: Pick<BenchTask, 'designId' | 'methodKey' | 'stepKey'> & { readonly codes?: readonly string[] },
): string {
  const chosen: Record<string, string> = codes.length === 0 ? {} : { codes: codes.join(' ') }
  return `/l/${short}/bench/sheet?${new URLSearchParams({ designId, methodKey, stepKey, ...chosen })}`
}
