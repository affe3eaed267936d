import type { CreateMaterial, Material, MaterialKind } from '@curebook/contract/materials'
import type { CreateDesign, Design, PlanSeries, SpecimenRow } from '@curebook/contract/designs'
import type { PinnedSpecification } from '@curebook/contract/project-specifications'
import type { JobKind, Project } from '@curebook/contract/projects'
import type { Specification } from '@curebook/contract/specifications'
import { newId } from '../../../apps/api/src/platform/uuid.ts'
import type { TestApp } from '../app.ts'
import type { TestLaboratory } from './laboratory.ts'

const today = ({ clock }: TestApp) => clock.now().toISOString().slice(0, 10)

/** A project of the laboratory's first client. */
export async function makeProject(
  testApp: TestApp,
  lab: TestLaboratory,
  { kind = 'full', name = 'Overlay 2026' }: { kind?: JobKind; name?: string } = {},
): Promise<Project> {
  const { value } = await testApp.services.projects.create(lab.people.manager.actor, {
    id: newId(),
    clientId: lab.clientId,
    name,
    kind,
    reportTo: '',
    copiesTo: '',
  })
  return value
}

const samples: Record<MaterialKind, Pick<CreateMaterial, 'name' | 'sourceName' | 'supplier' | 'lot'>> = {
  aggregate: { name: 'Type II aggregate, crushed', sourceName: 'Skerry Edge Quarry', supplier: '', lot: '' },
  emulsion: {
    name: 'Quick-set polymer-modified emulsion',
    sourceName: 'Ansel Binders',
    supplier: 'Ansel Binders',
    lot: '4417',
  },
  filler: { name: 'Cement', sourceName: 'Builder’s merchant', supplier: '', lot: '' },
  additive: { name: 'Set-control additive', sourceName: 'Ansel Binders', supplier: '', lot: '' },
  water: { name: 'Job water', sourceName: 'Site main', supplier: '', lot: '' },
}

/** A sample received today. */
export async function makeMaterial(
  testApp: TestApp,
  lab: TestLaboratory,
  kind: MaterialKind,
  changes: Partial<CreateMaterial> = {},
): Promise<Material> {
  const input = { id: newId(), kind, receivedOn: today(testApp), note: '', ...samples[kind], ...changes }
  return (await testApp.services.materials.create(lab.people.technician.actor, input)).value
}

/** The built-in guideline values for micro-surfacing under heavy traffic, adopted as they are. */
export async function makeSpecification(testApp: TestApp, lab: TestLaboratory): Promise<Specification> {
  const [builtIn] = (await testApp.services.specifications.builtIn()).items
  const variant =
    builtIn!.variants.find(({ aggregateType, traffic }) => aggregateType === 'Type II' && traffic === 'heavy') ??
    builtIn!.variants[0]!
  const { value } = await testApp.services.specifications.adopt(lab.people.engineer.actor, {
    id: newId(),
    builtInKey: builtIn!.key,
    name: 'Guideline values as adopted',
    aggregateType: variant.aggregateType,
    traffic: variant.traffic,
    changes: [],
  })
  return value
}

/** The project set on a version of a specification; `after` names the record that stood before. */
export async function pinSpecification(
  testApp: TestApp,
  lab: TestLaboratory,
  project: string,
  { specificationId, after = null, reason }: { specificationId: string; after?: string | null; reason?: string },
): Promise<PinnedSpecification> {
  const input = { id: newId(), specificationId, after, ...(reason === undefined ? {} : { reason }) }
  return (await testApp.services.projectSpecifications.set(lab.people.engineer.actor, project, input)).value
}

export type DesignOptions = {
  kind?: JobKind
  name?: string
  moisture?: string | null
  residue?: string | null
  changes?: Partial<CreateDesign>
}

/** A drafted design with its project, samples, specification, and residue and moisture entered unless null. */
export async function makeDesign(
  testApp: TestApp,
  lab: TestLaboratory,
  { kind, name = 'Micro-surfacing, Type II', moisture = '0.0', residue = '62.6', changes = {} }: DesignOptions = {},
): Promise<Design> {
  const engineer = lab.people.engineer.actor
  const project = await makeProject(testApp, lab, { kind })
  const specification = await makeSpecification(testApp, lab)
  const ids = {} as Record<MaterialKind, string>
  for (const material of Object.keys(samples) as MaterialKind[])
    ids[material] = (await makeMaterial(testApp, lab, material)).id
  const { value } = await testApp.services.designs.create(engineer, {
    id: newId(),
    revisionId: newId(),
    projectId: project.id,
    name,
    specificationId: specification.id,
    aggregateId: ids.aggregate,
    emulsionId: ids.emulsion,
    fillerId: ids.filler,
    additiveId: ids.additive,
    waterId: ids.water,
    fractionUsed: '',
    scalpedPercent: '',
    ...changes,
  })
  for (const [key, typed] of [
    ['residue', residue],
    ['aggregate-moisture', moisture],
  ] as const)
    if (typed !== null)
      await testApp.services.designs.enterResult(engineer, value.id, {
        id: newId(),
        key,
        typed,
        unit: '%',
        source: 'Own test',
        observedOn: today(testApp),
      })
  return testApp.services.designs.read(engineer, value.id)
}

/** One content of a series at 12 % emulsion, one abrasion disc; anything can be told otherwise. */
export function aSeries({
  contents = ['12'],
  ...changes
}: { contents?: string[] } & Partial<Pick<PlanSeries, 'methods'>> = {}): PlanSeries {
  return {
    contents: contents.map((emulsionPercent) => ({
      emulsionPercent,
      waterPercent: '10',
      fillerPercent: '1',
      additivePercent: '0.2',
    })),
    methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 1, spares: [] }],
    ...changes,
  }
}

/** A design with a planned series. */
export async function makePlannedDesign(
  testApp: TestApp,
  lab: TestLaboratory,
  series: PlanSeries = aSeries(),
  options: DesignOptions = {},
): Promise<{ design: Design; specimens: SpecimenRow[] }> {
  const { id } = await makeDesign(testApp, lab, options)
  const { items: specimens } = await testApp.services.designs.plan(lab.people.engineer.actor, id, series, newId())
  return { design: await testApp.services.designs.read(lab.people.engineer.actor, id), specimens }
}
