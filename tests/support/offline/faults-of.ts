import type { PostConditions } from '@curebook/contract/conditions'
import type { LedgerRow, RecordRow } from './read-record.ts'
import type { Entered, Lane, Outcome } from './run-sequence.ts'

const isSpoilt = ({ wanted }: Entered) => 'spoilt' in wanted && wanted.spoilt !== undefined

/** Everything that is not as it must be after a sequence, a sentence each; none when all is well. */
export function faultsOf(
  outcome: Outcome,
  rows: readonly RecordRow[],
  ledger: readonly LedgerRow[],
  elsewhere: string,
): string[] {
  const own = rows.filter(({ by_id }) => by_id !== elsewhere)
  return [
    ...outcome.lanes.flatMap((lane) => orderFaults(lane, own)),
    ...outcome.lanes.flatMap(({ entered }) => entered.flatMap((one) => rowFaults(one, outcome, own, ledger))),
    ...heldFaults(outcome),
    ...refusalFaults(outcome),
    ...outcome.left.map(({ id, state }) => `${id} is left on the device, ${state}`),
  ]
}

/** Each lane arrived whole, once, in order, and nothing else did; of the oven's log each value did, once. */
function orderFaults({ testId, entered }: Lane, own: readonly RecordRow[]): string[] {
  const good = entered.filter((one) => !isSpoilt(one))
  const idsOf = (isLog: boolean) => good.filter(({ wanted }) => (wanted.kind === 'log') === isLog).map(({ id }) => id)
  const wanted = idsOf(false)
  const found = own.filter(({ test_id }) => test_id === testId).map(({ id }) => id)
  const unlogged = idsOf(true).filter((value) => own.filter(({ id }) => id === value).length !== 1)
  return [
    ...(wanted.join() === found.join()
      ? []
      : [`lane ${testId}: entered ${wanted.join(', ')}; the record has ${found.join(', ')}`]),
    ...unlogged.map((id) => `${id}: the log of the oven does not have it once`),
  ]
}

/** One that was entered: as typed, at its time, under its name, and once in the ledger; nothing of one that was refused. */
function rowFaults(
  one: Entered,
  { attemptsOf }: Outcome,
  own: readonly RecordRow[],
  ledger: readonly LedgerRow[],
): string[] {
  const { id, wanted, membershipId, body, takesBack } = one
  const row = own.find((candidate) => candidate.id === id)
  const entries = ledger.filter(({ subject_id, content, action }) =>
    wanted.kind === 'withdrawal'
      ? subject_id === takesBack && action === 'reading:withdraw' && content.includes(id)
      : wanted.kind === 'log'
        ? action === 'condition:create' && content.includes(id)
        : subject_id === id && action !== 'reading:withdraw',
  )
  if (isSpoilt(one)) return entries.length === 0 ? [] : [`${id} was refused, and the ledger knows it`]
  // That it is missing is said with its lane.
  if (!row) return []
  const faults: string[] = []
  const expect = (what: string, found: unknown, right: unknown) => {
    if (found !== right) faults.push(`${id}: ${what} is ${String(found)}, and ${String(right)} would be right`)
  }
  if ('typed' in wanted) expect('what was typed', row.typed, wanted.typed)
  expect('its person', row.by_id, membershipId)
  expect('its entries in the ledger', entries.map(({ actor_id }) => actor_id).join(), membershipId)
  expect('its time', row.event_at.toISOString(), body.time.eventAt)
  const told = Math.max(row.sent_at.getTime(), Date.parse(body.time.toldAt!))
  expect('the offset', row.offset_ms, row.received_at.getTime() - told)
  const attempts = attemptsOf(id).filter(({ sentAt }) => sentAt === row.sent_at.toISOString())
  if (attempts.length === 0) faults.push(`${id}: sent at ${row.sent_at.toISOString()}, when nothing of it was sent`)
  // With a clock that was the same at both times, the event is where it truly was, but for the way of the request.
  const effective = row.event_at.getTime() + row.offset_ms
  const ways = attempts
    .filter(({ ahead }) => ahead === one.ahead)
    .map(({ trueAt }) => row.received_at.getTime() - trueAt)
  if (ways.length > 0 && !ways.includes(effective - one.trueAt))
    faults.push(
      `${id}: judged by ${new Date(effective).toISOString()}, and it was ${new Date(one.trueAt).toISOString()}`,
    )
  if (effective > row.received_at.getTime()) faults.push(`${id}: judged by a time after it was received`)
  return faults
}

/** Before a person has looked: what stands behind a refusal in any of its lanes waits, and nothing else does. */
function heldFaults({ lanes, held }: Outcome): string[] {
  const all = lanes.flatMap(({ entered }) => entered).toSorted((a, b) => a.place - b.place)
  // Nobody waits for what another person entered.
  const holds = new Set<string>()
  const wanted = all.flatMap((one) => {
    const own = one.lanes.map((lane) => `${one.membershipId} ${lane}`)
    const isBehind = own.some((lane) => holds.has(lane))
    if (!isBehind && !isSpoilt(one)) return []
    for (const lane of own) holds.add(lane)
    return [`${one.id} ${isBehind ? 'queued' : 'refused'}`]
  })
  const found = held.map(({ id, state }) => `${id} ${state}`)
  if (wanted.toSorted().join() === found.toSorted().join()) return []
  const why = held.map(({ id, problem }) => `${id} ${problem?.message ?? ''}`)
  return [`${wanted.join(', ')} should be held; on the device: ${found.join(', ')} (${why.join(', ')})`]
}

/** Each refusal and no other, with what was typed and why not. */
function refusalFaults({ lanes, refused }: Outcome): string[] {
  const spoilt = lanes.flatMap(({ entered }) => entered).filter(isSpoilt)
  const strangers = refused.filter(({ id }) => !spoilt.some((one) => one.id === id))
  return [
    ...strangers.map(({ id, path, problem }) => `${id} (${path}) was refused: ${problem?.message}`),
    ...spoilt.flatMap(({ id, wanted }) => {
      const found = refused.filter((entry) => entry.id === id)
      if (found.length !== 1) return [`${id} was refused ${found.length} times`]
      const { problem, body } = found[0]!
      const typed = 'typed' in wanted ? wanted.typed : undefined
      const kept =
        wanted.kind === 'log' ? (body as PostConditions).values[0]?.value : (body as { typed?: string }).typed
      const conflict = wanted.kind === 'reading' && wanted.spoilt === 'conflict'
      const right =
        problem?.status === (conflict ? 409 : 400) &&
        problem.message !== '' &&
        (!conflict || (problem.extra.stored as { typed?: string } | undefined)?.typed !== undefined) &&
        kept === typed
      return right ? [] : [`${id} should keep ${typed} and why not: ${JSON.stringify({ problem, body })}`]
    }),
  ]
}
