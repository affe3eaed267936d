import type { SpecimenRow } from '@curebook/contract/designs'
import { newId } from '#platform/uuid'
import { tellDiscs, tellStrips, type Specimen } from './bench-story.ts'
import { benchHand } from './demo-bench.ts'
import { demoCalendar, type DemoCalendar } from './demo-calendar.ts'
import { setUpDesign, type DemoMaterials } from './demo-setup.ts'
import { createStory, minutesAfter } from './demo-story.ts'
import type { Cast } from './marrowdale-story.ts'
import type { OtherDesign } from './other-designs.ts'
import { tellPanelTests } from './panel-story.ts'

type Setup = { readonly now: Date; readonly clientId: string; readonly reportTo: string; readonly copiesTo: string }

/** A whole series from its samples to the last weighing, weeks ago. @returns the design's id */
export async function tellOtherDesign(cast: Cast, told: OtherDesign, setup: Setup): Promise<string> {
  const { services, clock, people } = cast
  // The calendar lays its first Monday sixteen days or more back.
  const calendar = demoCalendar(minutesAfter(setup.now, -(told.daysAgo - 16) * 24 * 60))
  clock.set(calendar.at(1, '09:00').toISOString())
  const materials = await receive(cast, told, calendar)
  clock.set(calendar.at(1, '15:00').toISOString())
  const designId = await setUpDesign(services, people, calendar, {
    ...setup,
    kind: 'full',
    projectName: told.projectName,
    designName: told.designName,
    builtInKey: told.builtInKey,
    specificationName: told.specificationName,
    materials,
    residue: told.residue,
    residueSource: told.residueSource,
  })
  clock.set(calendar.at(1, '16:00').toISOString())
  const percents = Object.keys(told.series[0]!.changes)
  const contents = percents.map((emulsionPercent) => ({ emulsionPercent, ...told.shares }))
  const methods = told.series.map(({ methodKey, changes }) => ({
    methodKey,
    replicates: changes[percents[0]!]!.length,
    spares: [],
  }))
  const { items } = await services.designs.plan(people.engineer, designId, { contents, methods }, newId())
  await services.schedule.assign(
    people.manager,
    { testIds: items.map(({ testId }) => testId), to: people.technician2.membershipId },
    newId(),
  )
  await play({ ...cast, calendar }, told, items, contents)
  if (told.key === 'open') await tellPanelTests({ ...cast, calendar }, designId, contents)
  return designId
}

async function receive({ services, people }: Cast, told: OtherDesign, calendar: DemoCalendar): Promise<DemoMaterials> {
  const receivedOn = calendar.dayOf(1)
  const samples = {
    aggregate: { ...told.aggregate, supplier: told.aggregate.sourceName, lot: '' },
    emulsion: { ...told.emulsion, sourceName: 'Ansel Binders', supplier: 'Ansel Binders', note: 'Two 5 L containers' },
    filler: { name: 'Cement', sourceName: 'works store', supplier: '', lot: 'B-22', note: '' },
    additive: {
      name: 'Set-control additive',
      sourceName: 'Ansel Binders',
      supplier: 'Ansel Binders',
      lot: 'A-9',
      note: '',
    },
    water: { name: 'Job water', sourceName: 'site tank', supplier: '', lot: '', note: '10 L' },
  } as const
  const ids = {} as DemoMaterials
  for (const kind of Object.keys(samples) as (keyof typeof samples)[]) {
    ids[kind] = newId()
    await services.materials.create(people.technician, { id: ids[kind], kind, ...samples[kind], receivedOn })
  }
  return ids
}

async function play(
  cast: Cast,
  told: OtherDesign,
  items: readonly SpecimenRow[],
  contents: Parameters<typeof tellDiscs>[1]['contents'],
): Promise<void> {
  const story = createStory(cast.clock)
  const hand = benchHand(cast.services, cast.clock, cast.people.technician2)
  const scene = { ...cast, contents }
  const own = (methodKey: string) =>
    items
      .filter((specimen) => specimen.methodKey === methodKey)
      .map((specimen, index): Specimen => ({ ...specimen, row: weighed(told, specimen, index) }))
  const discs = { soakedAt: {}, lost: [] }
  tellDiscs(story, scene, hand, own('wet-track-abrasion-1h'), {
    ...discs,
    cast: [2, '09:00'],
    ovens: ['10:45', '11:30'],
    out: [3, '08:35'],
    weigh: [3, '09:40'],
    soak: [3, '10:20'],
    soakMinutes: () => 62,
    dryOut: [4, '08:00'],
    last: [4, '09:00'],
  })
  tellDiscs(story, scene, hand, own('wet-track-abrasion-6d'), {
    ...discs,
    cast: [3, '14:10'],
    ovens: ['15:30', '16:10'],
    out: [4, '09:05'],
    weigh: [4, '10:10'],
    soak: [4, '10:30'],
    soakMinutes: () => 6 * 24 * 60 + 5,
    dryOut: [11, '09:00'],
    last: [11, '10:05'],
  })
  tellStrips(story, scene, hand, own('loaded-wheel-sand-adhesion'), {
    cast: [8, '13:20'],
    oven: [8, '15:45'],
    out: [9, '07:30'],
    mount: [9, '08:35'],
    dry: [9, '16:05'],
    dryOut: [10, '08:00'],
    weigh: [10, '09:00'],
    sand: [10, '13:00'],
  })
  await story.play()
}

/** Grams of one specimen as typed: its mass before from a fixed scatter, after by the change that the design tells. */
function weighed(told: OtherDesign, { methodKey, emulsionPercent, replicate, form }: SpecimenRow, index: number) {
  const change = Number(
    told.series.find((series) => series.methodKey === methodKey)!.changes[emulsionPercent!]![replicate - 1],
  )
  const scatter = ((index * 7) % 11) - 5
  const [base, decimals, dry] = form === 'strip' ? ([364, 2, 300] as const) : ([757, 1, 800] as const)
  // Discs of another soak are other discs.
  const own = (((index + (methodKey === 'wet-track-abrasion-6d' ? 4 : 0)) * 7) % 11) - 5
  const before = base + own * (form === 'strip' ? 1.37 : 3.1)
  return {
    aggregate: dry.toFixed(1),
    emulsion: ((Number(emulsionPercent) * dry) / 100 + scatter * 0.06).toFixed(1),
    w1: before.toFixed(decimals),
    w2: (Number(before.toFixed(decimals)) + (form === 'strip' ? change : -change)).toFixed(decimals),
  }
}
