import type { MaterialKind } from '@curebook/contract/materials'
import type { JobKind } from '@curebook/contract/projects'
import { newId } from '#platform/uuid'
import type { Services } from '../services.ts'
import type { DemoCalendar } from './demo-calendar.ts'
import { makeDemoPlaces, receiptOf } from './demo-custody.ts'
import type { DemoPeople } from './demo-laboratory.ts'

export type DemoMaterials = Record<MaterialKind, string>

const samples: Record<MaterialKind, { name: string; sourceName: string; supplier: string; lot: string; note: string }> =
  {
    aggregate: {
      name: 'Type II aggregate, crushed',
      sourceName: 'Skerry Edge Quarry',
      supplier: 'Skerry Edge Quarry',
      lot: 'stockpile 3',
      note: 'Same source as last year; bags labelled by the quarry',
    },
    emulsion: {
      name: 'Quick-set polymer-modified emulsion',
      sourceName: 'Ansel Binders',
      supplier: 'Ansel Binders',
      lot: 'load 4417',
      note: 'Certificate: residue 62.8 %, viscosity 31 s, sieve 0.02 %',
    },
    filler: {
      name: 'Cement',
      sourceName: 'works store',
      supplier: 'Marrowdale County Roads',
      lot: 'B-22',
      note: '',
    },
    additive: {
      name: 'Set-control additive',
      sourceName: 'Ansel Binders',
      supplier: 'Ansel Binders',
      lot: 'A-9',
      note: '',
    },
    water: { name: 'Job water', sourceName: 'site tank', supplier: 'Marrowdale County Roads', lot: '', note: '' },
  }

/** Day 1: what arrived, received by the second technician. */
export async function receiveMaterials(
  services: Services,
  { manager, technician2 }: DemoPeople,
  calendar: DemoCalendar,
): Promise<DemoMaterials> {
  const places = await makeDemoPlaces(services, manager)
  const ids = {} as DemoMaterials
  for (const [kind, sample] of Object.entries(samples) as [MaterialKind, (typeof samples)[MaterialKind]][]) {
    ids[kind] = newId()
    await services.materials.create(technician2, {
      id: ids[kind],
      kind,
      ...sample,
      receivedOn: calendar.dayOf(1),
      receipt: receiptOf(kind, places, calendar),
    })
  }
  return ids
}

type DesignSetup = {
  clientId: string
  projectName: string
  designName: string
  kind: JobKind
  specificationName: string
  /** Default: the guideline values for micro-surfacing. */
  builtInKey?: string
  materials: DemoMaterials
  /** Residue of the emulsion in %, and where it comes from. */
  residue?: string
  residueSource?: string
  reportTo: string
  copiesTo: string
}

/** Project, specification as adopted and set for the project, design with its entered values. @returns the design's id */
export async function setUpDesign(
  services: Services,
  { manager, engineer }: DemoPeople,
  calendar: DemoCalendar,
  setup: DesignSetup,
): Promise<string> {
  const [projectId, specificationId, designId] = [newId(), newId(), newId()]
  const { clientId, kind, materials } = setup
  await services.projects.create(manager, {
    id: projectId,
    clientId,
    name: setup.projectName,
    kind,
    reportTo: setup.reportTo,
    copiesTo: setup.copiesTo,
  })
  await services.specifications.adopt(engineer, {
    id: specificationId,
    builtInKey: setup.builtInKey ?? 'issa-a143-2010',
    name: setup.specificationName,
    aggregateType: 'Type II',
    traffic: 'heavy',
    changes: [],
  })
  await services.projectSpecifications.set(engineer, projectId, { id: newId(), specificationId, after: null })
  await services.designs.create(engineer, {
    id: designId,
    revisionId: newId(),
    projectId,
    name: setup.designName,
    aggregateId: materials.aggregate,
    emulsionId: materials.emulsion,
    fillerId: materials.filler,
    additiveId: materials.additive,
    waterId: materials.water,
    fractionUsed: 'passing 4.75 mm for discs, whole grading for strips',
    scalpedPercent: '5.9',
  })
  const entered = [
    [
      'residue',
      setup.residue ?? '62.6',
      setup.residueSource ?? 'Own test, ASTM D6934: mean of three beakers, 62.4, 62.6, 62.8',
    ],
    ['aggregate-moisture', '0.0', 'Own test: bags oven-dry'],
  ] as const
  for (const [key, typed, source] of entered)
    await services.designs.enterResult(engineer, designId, {
      id: newId(),
      key,
      typed,
      unit: '%',
      source,
      observedOn: calendar.dayOf(1),
    })
  return designId
}
