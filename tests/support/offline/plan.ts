import fc from 'fast-check'

/**
 * What may befall one sending. `late`: given up on the device, and arriving all the same some time after. `closed-…`: the
 * tab is gone before the request left, or before its answer came.
 */
export const faults = [
  'no-network',
  'answer-lost',
  'answer-cut',
  'bad-gateway',
  'bad-gateway-after',
  'sign-in-page',
  'closed-before',
  'closed-after',
  'late',
] as const
export type Fault = (typeof faults)[number]

export type PersonKey = 'first' | 'second'
export type Wanted =
  | { readonly kind: 'act'; readonly stepKey: string; readonly act: 'start' | 'end' }
  | {
      readonly kind: 'reading'
      readonly stepKey: string
      readonly key: string
      readonly typed: string
      /** `conflict`: another device stored another value in the slot first. `unit`: no such unit for what is measured. */
      readonly spoilt?: 'conflict' | 'unit'
    }
  /** Into the oven, or out of it, with a load: a request about the load and its specimen. */
  | { readonly kind: 'move'; readonly stepKey: string; readonly way: 'in' | 'out' }
  /** A temperature for the oven's log, which no specimen waits for. `unit`: no such unit for a temperature. */
  | { readonly kind: 'log'; readonly typed: string; readonly spoilt?: 'unit' }
  /** Takes back the reading before it, which is then entered anew. */
  | { readonly kind: 'withdrawal' }
/** One thing entered, and what befalls its first sendings; after those the network is good for it. */
export type PlannedEntry = { readonly wanted: Wanted; readonly faults: readonly Fault[] }
export type LanePlan = {
  readonly test: 'batch' | 'disc'
  readonly person: PersonKey
  readonly entries: readonly PlannedEntry[]
}
export type Moment =
  /** The next thing of a lane is entered; it is sent at once, and nobody waits for that. */
  | { readonly do: 'enter'; readonly lane: number }
  /** The device's clock is put to so much ahead of the true time. */
  | { readonly do: 'clock'; readonly aheadMs: number }
  | { readonly do: 'pass'; readonly seconds: number }
  /** The time for trying again has come; waited for until nothing moves. */
  | { readonly do: 'try' }
  | { readonly do: 'sign-in'; readonly who: PersonKey | 'nobody' }
  | { readonly do: 'open-tab'; readonly who: PersonKey }
  | { readonly do: 'close-tab' }
export type Sequence = {
  /** Without, as on a plain-http address, every tab sends. */
  readonly locks: boolean
  readonly aheadMs: number
  readonly lanes: readonly LanePlan[]
  readonly moments: readonly Moment[]
}

type Slot = {
  readonly stepKey: string
  readonly key: string
  readonly unit: string
  readonly values: fc.Arbitrary<string>
}

const tenths = (from: number, to: number) =>
  fc.integer({ min: from * 10, max: to * 10 }).map((value) => `${Math.floor(value / 10)}.${value % 10}`)
const slot = (stepKey: string, key: string, values: fc.Arbitrary<string>, unit = 'g'): Slot => ({
  stepKey,
  key,
  unit,
  values,
})

const batchSlots: readonly Slot[] = [
  slot('weigh-components', 'aggregate', tenths(700, 900)),
  slot('weigh-components', 'filler', tenths(1, 20)),
  slot('weigh-components', 'additive', tenths(1, 5)),
  slot('weigh-components', 'water', tenths(50, 120)),
  slot('weigh-components', 'emulsion', tenths(60, 140)),
  slot('mix', 'mixing-seconds', fc.integer({ min: 10, max: 60 }).map(String), 's'),
  slot('mix', 'broke-in-bowl', fc.constantFrom('no', 'yes'), ''),
]
const weighBefore = slot('weigh-before', 'mass', tenths(740, 800))
const runSlots: readonly Slot[] = [
  slot('abrade', 'hose', fc.constantFrom('turned', 'new'), ''),
  slot('abrade', 'water-temperature', tenths(24, 26), '°C'),
  slot('abrade', 'observation', fc.constantFrom('Even wear', 'A grain came loose', 'Torn at the rim'), ''),
]
const weighAfter = slot('weigh-after', 'mass', tenths(680, 739))

const act = (stepKey: string, kind: 'start' | 'end'): Wanted => ({ kind: 'act', stepKey, act: kind })
const move = (stepKey: string, way: 'in' | 'out'): Wanted => ({ kind: 'move', stepKey, way })

/** As typed on different days: bare, or with its unit. */
function reading({ stepKey, key, unit, values }: Slot): fc.Arbitrary<Wanted> {
  return fc.record({ value: values, withUnit: fc.boolean() }).map(({ value, withUnit }) => ({
    kind: 'reading',
    stepKey,
    key,
    typed: withUnit && unit !== '' ? `${value} ${unit}` : value,
  }))
}

/** A person makes about one reading in twelve such that the server cannot take it. */
function mayBeSpoilt(slot: Slot): fc.Arbitrary<Wanted> {
  const spoilt = fc.constantFrom(...(slot.unit === '' ? [] : ['unit' as const]), 'conflict' as const)
  return fc.tuple(reading(slot), fc.integer({ min: 1, max: 12 }), spoilt).map(([wanted, chance, how]) => {
    if (chance > 1 || wanted.kind !== 'reading') return wanted
    return how === 'unit'
      ? { ...wanted, typed: slot.unit === 's' ? '12.5 g' : '12.5 min', spoilt: how }
      : { ...wanted, spoilt: how }
  })
}

const batchLane = fc
  .shuffledSubarray([...batchSlots], { minLength: 3 })
  .chain((slots) => fc.tuple(...slots.map(mayBeSpoilt)))
  .map((readings): Wanted[] => [...readings, act('mix', 'start')])

/** A disc on its way: what needs something stands behind it, and where a clock may jump no end is told beside its start. */
function discLane(steady: boolean): fc.Arbitrary<Wanted[]> {
  const ends = (stepKey: string) => (steady ? [act(stepKey, 'end')] : [])
  const inOven = { bench: [act('cure', 'start'), ...ends('cure')], load: [move('cure', 'in')] }
  if (steady) inOven.load.push(move('cure', 'out'))
  return fc
    .record({
      soaked: fc.boolean(),
      before: fc.tuple(reading(weighBefore), mayBeSpoilt(weighBefore)),
      run: fc.subarray([...runSlots]).chain((slots) => fc.tuple(...slots.map(mayBeSpoilt))),
      after: mayBeSpoilt(weighAfter),
      cured: fc.constantFrom('no', 'bench', 'load'),
    })
    .map(({ soaked, before, run, after, cured }) => [
      ...(cured === 'no' ? [act('cool', 'end')] : [act('cast', 'start'), ...inOven[cured]]),
      // What rests on a weighing is not entered on one that does not stand.
      ...(soaked ? [before[0], act('soak', 'start')] : [before[1]]),
      ...run,
      ...(cured !== 'no' ? [] : [act('dry-back', 'start'), ...ends('dry-back')]),
      after,
    ])
}

/** Where the clock stays as it is: behind a good reading, now and then, it is taken back and entered anew. */
function withWithdrawal(wanted: readonly Wanted[], at: number): Wanted[] {
  const index = wanted.findIndex((one, place) => place >= at && one.kind === 'reading' && one.spoilt === undefined)
  const taken = wanted[index]
  if (taken === undefined) return [...wanted]
  return [...wanted.slice(0, index + 1), { kind: 'withdrawal' }, taken, ...wanted.slice(index + 1)]
}

/** What somebody reads off the oven in between, now and then with a slip of the unit, and where in the lane. */
const logged: fc.Arbitrary<readonly (readonly [number, Wanted])[]> = fc.array(
  fc
    .record({ at: fc.integer({ min: 0, max: 6 }), value: tenths(57, 63), slip: fc.integer({ min: 1, max: 8 }) })
    .map(({ at, value, slip }): readonly [number, Wanted] => [
      at,
      slip === 1 ? { kind: 'log', typed: `${value} g`, spoilt: 'unit' } : { kind: 'log', typed: value },
    ]),
  { maxLength: 2 },
)

function withLogged(wanted: readonly Wanted[], values: readonly (readonly [number, Wanted])[]): Wanted[] {
  return values.reduce<Wanted[]>((all, [at, value]) => all.toSpliced(at, 0, value), [...wanted])
}

function lane(steady: boolean): fc.Arbitrary<LanePlan> {
  return fc.constantFrom('batch' as const, 'disc' as const).chain((test) =>
    fc
      .record({
        person: fc.constantFrom<PersonKey[]>('first', 'first', 'second'),
        wanted: test === 'batch' ? batchLane : discLane(steady),
        values: logged,
        takenBack: fc.option(fc.integer({ min: 0, max: 3 }), { freq: 2 }),
      })
      .chain(({ person, wanted, values, takenBack }) => {
        const both = withLogged(wanted, values)
        const all = steady && takenBack !== null ? withWithdrawal(both, takenBack) : both
        return fc
          .tuple(...all.slice(0, 8).map(() => fc.array(fc.constantFrom(...faults), { maxLength: 2 })))
          .map((befalls) => ({
            test,
            person,
            entries: befalls.map((faults, index) => ({ wanted: all[index]!, faults })),
          }))
      }),
  )
}

const between = (steady: boolean): fc.Arbitrary<Moment> =>
  fc.oneof(
    fc.constant<Moment>({ do: 'try' }),
    fc.integer({ min: 1, max: 40 }).map((seconds): Moment => ({ do: 'pass', seconds })),
    fc
      .constantFrom<(PersonKey | 'nobody')[]>('first', 'second', 'nobody')
      .map((who): Moment => ({ do: 'sign-in', who })),
    fc.constantFrom<PersonKey[]>('first', 'first', 'second').map((who): Moment => ({ do: 'open-tab', who })),
    fc.constant<Moment>({ do: 'close-tab' }),
    ...(steady ? [] : [clock.map((aheadMs): Moment => ({ do: 'clock', aheadMs }))]),
  )

/** A device's clock is from a minute and a half behind to two hours ahead. */
const clock = fc.oneof(
  fc.constant(0),
  fc.integer({ min: -90_000, max: 90_000 }),
  fc.integer({ min: -90_000, max: 2 * 3_600_000 }),
)

export const sequences: fc.Arbitrary<Sequence> = fc.boolean().chain((steady) =>
  fc.array(lane(steady), { minLength: 2, maxLength: 3 }).chain((lanes) => {
    const turns = lanes.flatMap(({ entries }, index) => entries.map(() => index))
    return fc.record({
      locks: fc.boolean(),
      aheadMs: clock,
      lanes: fc.constant(lanes),
      moments: fc
        .tuple(
          fc.shuffledSubarray(turns, { minLength: turns.length }),
          fc.array(fc.array(between(steady), { maxLength: 2 }), { minLength: turns.length, maxLength: turns.length }),
        )
        .map(([order, breaks]) =>
          order.flatMap((index, place): Moment[] => [{ do: 'enter', lane: index }, ...(breaks[place] ?? [])]),
        ),
    })
  }),
)
