import type { Design, DesignSummary, EnteredResult, Mix } from '@curebook/contract/designs'
import type { Material } from '@curebook/contract/materials'
import type { DesignState, JobKind } from '@curebook/contract/projects'
import type { NamedVersion, Specification } from '@curebook/contract/specifications'
import { dayOf, digitsOf, personName } from '#platform/row-values'
import type { DesignRow, EnteredRow, MixRow, RevisionRow, TestCounts } from './designs.repository.ts'

export function toSummary(row: DesignRow, counts: TestCounts | undefined): DesignSummary {
  const [revision] = row.designRevisions
  if (!revision) throw new Error(`Design ${row.id} has no revision`)
  return summaryOf(row, revision, counts)
}

function summaryOf(
  design: Pick<DesignRow, 'id' | 'name' | 'projectId' | 'kind' | 'project'>,
  revision: Pick<RevisionRow, 'id' | 'number' | 'state' | 'sendBacks'>,
  counts: TestCounts | undefined,
): DesignSummary {
  return {
    id: design.id,
    name: design.name,
    projectId: design.projectId,
    projectName: design.project.name,
    clientName: design.project.client.name,
    kind: design.kind as JobKind,
    revisionId: revision.id,
    revision: revision.number,
    state: revision.state as DesignState,
    testsDone: counts?.done ?? 0,
    testsTotal: counts?.total ?? 0,
    sentBack: revision.state === 'sent-back' ? toSentBack(revision) : null,
  }
}

/** What stands beside a revision's own rows. */
export type DesignParts = {
  specification: Specification
  /** What the project stands on; null where none was set. */
  projectSpecification: NamedVersion | null
  materials: readonly Material[]
  revisions: readonly { id: string; number: number; state: string }[]
  counts: TestCounts | undefined
}

export function toDesign(
  row: RevisionRow,
  { specification, projectSpecification, materials, revisions, counts }: DesignParts,
): Design {
  const material = (id: string | null) => materials.find((candidate) => candidate.id === id) ?? null
  const [aggregate, emulsion] = [material(row.aggregateItemId), material(row.emulsionItemId)]
  if (!aggregate || !emulsion) throw new Error(`Revision ${row.id} lacks its aggregate or emulsion`)
  return {
    ...summaryOf(row.design, row, counts),
    version: row.version,
    specification,
    specificationReason: row.specificationReason,
    projectSpecification,
    materials: {
      aggregate,
      emulsion,
      filler: material(row.fillerItemId),
      additive: material(row.additiveItemId),
      water: material(row.waterItemId),
    },
    fractionUsed: row.fractionUsed,
    scalpedPercent: row.scalpedPercent,
    residue: row.residueResult && toEntered(row.residueResult),
    moisture: row.moistureResult && toEntered(row.moistureResult),
    mixes: row.mixes.map(toMix),
    revisions: revisions.map(({ id, number, state }) => ({ id, number, state: state as DesignState })),
  }
}

/** A value entered on a design. Its unit and value stand: the database refuses an entered result without them. */
export function toEntered(row: EnteredRow): EnteredResult {
  if (
    row.value === null ||
    row.valueText === null ||
    row.unit === null ||
    row.source === null ||
    row.observedOn === null
  )
    throw new Error(`Entered result ${row.id} lacks its value or source`)
  return {
    id: row.id,
    key: row.key as EnteredResult['key'],
    typed: row.valueText,
    value: digitsOf(row.value),
    unit: row.unit,
    source: row.source,
    madeBy: row.madeByStated === true ? (row.madeBy as EnteredResult['madeBy']) : null,
    observedOn: dayOf(row.observedOn),
    by: personName(row.by),
    at: row.at.toISOString(),
    supersedes: row.supersedes && {
      id: row.supersedes.id,
      typed: row.supersedes.valueText ?? '',
      reason: row.reason ?? '',
    },
  }
}

export function toMix(row: MixRow): Mix {
  return {
    id: row.id,
    ordinal: row.ordinal,
    emulsionPercent: row.emulsionPercentText,
    waterPercent: row.waterPercentText,
    fillerPercent: row.fillerPercentText,
    additivePercent: row.additivePercentText,
  }
}

function toSentBack({ sendBacks: [latest] }: Pick<RevisionRow, 'sendBacks'>): Design['sentBack'] {
  if (!latest) return null
  const points = JSON.parse(latest.points) as readonly (string | { text: string })[]
  return {
    by: personName(latest.by),
    at: latest.at.toISOString(),
    reason: latest.reason,
    points: points.map((point) => (typeof point === 'string' ? point : point.text)),
  }
}
