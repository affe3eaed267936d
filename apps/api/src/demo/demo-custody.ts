import type { Place, RecordAct } from '@curebook/contract/custody'
import type { MaterialKind, NewReceipt } from '@curebook/contract/materials'
import type { Actor } from '#platform/actor'
import { newId } from '#platform/uuid'
import type { Services } from '../services.ts'
import type { DemoCalendar } from './demo-calendar.ts'
import type { Cast } from './marrowdale-story.ts'

export type DemoPlaces = { readonly aggregates: string; readonly cool: string }

/** Where samples stand; the yard shows a place that cannot have custody. */
export async function makeDemoPlaces(services: Services, manager: Actor): Promise<DemoPlaces> {
  const make = async (name: string, kind: Place['kind'], accessControlled: boolean) =>
    (await services.places.create(manager, { id: newId(), name, kind, accessControlled })).value.id
  await make('Yard', 'outside', false)
  await make('Oven room', 'room', true)
  return { aggregates: await make('Aggregate store', 'store', true), cool: await make('Cool store', 'store', true) }
}

/** What was found on arrival; all of it invented. */
export function receiptOf(kind: MaterialKind, places: DemoPlaces, calendar: DemoCalendar): NewReceipt {
  const receipts: Record<MaterialKind, NewReceipt> = {
    aggregate: {
      containerKind: 'bags',
      containerCount: 3,
      containers: ['24.8 kg', '25.3 kg', '24.1 kg'],
      condition: 'wet',
      sampledBy: 'Quarry technician',
      sampledWhere: 'Stockpile 3, three places around its foot',
      sampledHow: 'By shovel from a loader’s cut, mixed and bagged',
      safetySheet: 'not-needed',
      placeId: places.aggregates,
    },
    emulsion: {
      containerKind: 'plastic jerrycans',
      containerCount: 2,
      containers: ['5 L', '5 L'],
      temperature: '27',
      condition: 'good',
      sealIntact: true,
      sampledBy: 'Plant operator',
      sampledWhere: 'Loading line of load 4417',
      sampledHow: 'From the middle of the load',
      safetySheet: 'on-file',
      safetySheetName: 'Quick-set emulsion, sheet of this year',
      madeOn: calendar.dayOf(-2),
      placeId: places.cool,
    },
    filler: {
      containerKind: 'bag',
      containers: ['3 kg'],
      condition: 'good',
      safetySheet: 'on-file',
      safetySheetName: 'Cement',
      placeId: places.aggregates,
    },
    additive: { containerKind: 'bottle', containers: ['0.5 L'], safetySheet: 'missing', placeId: places.cool },
    water: { containerKind: 'can', containers: ['10 L'], placeId: places.cool },
  }
  return receipts[kind]
}

/** Day 2: the dried aggregate is bagged for discs and strips, and what is left goes back to its store. */
export async function prepareBags(
  { services, clock, calendar, people }: Cast,
  materials: Record<MaterialKind, string>,
): Promise<void> {
  const act = async (time: string, person: Actor, itemId: string, sent: Record<string, unknown>) => {
    const now = calendar.at(2, time).toISOString()
    clock.set(now)
    const { custody } = await services.custody.read(person, itemId)
    const told = { eventAt: now, eventFrom: 'now', sentAt: now }
    await services.custody.record(person, itemId, {
      id: newId(),
      after: custody.lastEventId,
      time: told,
      ...sent,
    } as RecordAct)
  }
  const bags = (count: number, mass: string) =>
    Array.from({ length: count }, () => ({ id: newId(), kind: 'bag' as const, mass }))
  const { technician } = people
  await act('08:05', technician, materials.aggregate, { kind: 'taken' })
  await act('11:20', technician, materials.aggregate, {
    kind: 'split',
    pieces: bags(34, '800'),
    loss: '3943',
    fraction: 'passing 4.75 mm',
    scalped: '5.9',
    note: 'Lost: 2238 g of water dried off, 1705 g over 4.75 mm scalped',
  })
  await act('11:50', technician, materials.aggregate, {
    kind: 'split',
    pieces: bags(18, '300'),
    loss: '0',
    fraction: 'whole grading',
  })
  const { items } = await services.places.list(technician)
  const store = items.find(({ name }) => name === 'Aggregate store')!
  await act('11:55', technician, materials.aggregate, { kind: 'placed', placeId: store.id })
}
