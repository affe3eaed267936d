import type { Design } from '@curebook/contract/designs'
import type { Gradation } from '@curebook/contract/gradations'
import { gradationWords, panelResultWords } from '@curebook/contract/panel-result-words'
import type { RangeView } from '@curebook/contract/range'
import type { Recommendation } from '@curebook/contract/recommendations'
import type { SignedContent } from '@curebook/contract/signed-content'
import { specificationDifference } from '@curebook/contract/specification-difference'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { EditionParameters, MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { displayDigits, type DecimalSign } from '@curebook/trade/quantity/display'
import { decisionWords } from './review-points.ts'
import type { SignedParts } from './signed-parts.ts'
import { signedSpecimens } from './signed-specimens.ts'
import type { UsedEdition, UsedInstrument } from './signed-content.repository.ts'
import type { WorkRecord } from '#features/bench/work-record.service'

/** Everything that the report of a revision shows, from what stands now. The same record gives the same bytes. */
export function signedContent(parts: SignedParts): SignedContent {
  const { design, work, range, recommendation, letterhead } = parts
  const { laboratory, client, project } = letterhead
  return {
    schema: '1',
    kind: 'revision',
    laboratory: {
      name: laboratory.name,
      address: laboratory.address,
      contact: laboratory.contact,
      zone: laboratory.zone,
      decimalSign: parts.sign,
      accreditation: laboratory.accreditation ?? '',
    },
    client: { name: client.name, contact: client.contact, address: client.address },
    project: {
      name: project.name,
      kind: kindWords[design.kind],
      reportTo: project.reportTo,
      copiesTo: project.copiesTo,
    },
    design: {
      id: design.id,
      name: design.name,
      revisionId: design.revisionId,
      revision: String(design.revision),
      fractionUsed: design.fractionUsed,
      scalpedPercent: design.scalpedPercent,
    },
    specification: specificationOf(design),
    materials: Object.values(design.materials).flatMap((material) =>
      material
        ? [
            {
              kind: material.kind,
              code: material.code,
              name: material.name,
              sourceName: material.sourceName,
              supplier: material.supplier,
              lot: material.lot,
              receivedOn: material.receivedOn,
              note: material.note,
            },
          ]
        : [],
    ),
    enteredResults: [...enteredOf(design), ...panelResultsOf(range)],
    ...(range.gradation === null ? {} : { gradation: gradationOf(range.gradation) }),
    ...(range.gradationCheck === null ? {} : { gradationCheck: range.gradationCheck }),
    ...(parts.trialMixes === null ? {} : { trialMixes: parts.trialMixes }),
    methods: parts.editions.map((edition) => editionOf(edition, parts.methods)),
    instruments: parts.instruments.map((instrument) => instrumentOf(instrument, parts.methods)),
    ...besideWork(parts),
    mixes: design.mixes.map(({ emulsionPercent, waterPercent, fillerPercent, additivePercent }) => ({
      emulsionPercent,
      waterPercent,
      fillerPercent,
      additivePercent,
    })),
    specimens: signedSpecimens(parts),
    curves: range.curves,
    range: {
      minimum: range.minimum,
      maximum: range.maximum,
      midpoint: range.midpoint?.residualPercent ?? '',
      midpointEmulsion: range.midpoint?.emulsionPercent ?? '',
      basis: range.basis,
      midpointCalculation: range.midpoint?.calculation ?? null,
      sentence: range.sentence,
      comparison: range.comparison,
      flags: range.flags,
    },
    panel: range.panel,
    overall: range.overall,
    recommendation: recommendation && recommendationOf(recommendation, parts.sign),
    deviations: work.deviations.map(({ itemCode, text, decision }) => ({
      code: itemCode ?? '',
      text,
      decision: decision ? `${decisionWords[decision.kind]}: ${decision.reason}` : '',
      by: decision?.by?.name ?? '',
      at: decision?.at ?? '',
    })),
    corrections: [
      ...correctionsOf(work),
      ...parts.putRight.map(({ line }) => line),
      ...replacedOf(range),
      ...replacedGradation(range),
    ],
    acknowledgements: parts.acknowledgements.flatMap(({ pointKey, word, by, at }) => {
      const point = parts.points.find(({ key }) => key === pointKey)
      return point
        ? [{ point: point.sentence, effect: point.effect ?? '', word, by: by.name, at: at.toISOString() }]
        : []
    }),
    people: peopleOf(work, parts.enterers),
    dates: datesOf(design, work),
    statements: [],
  }
}

/** What helps to compute everything again and is no part of what a check is of. */
function besideWork({
  work,
  instruments,
  equipment,
}: SignedParts): Pick<SignedContent, 'equipment' | 'measuredAreas' | 'batchExample'> {
  const codesOf = (testId: string) => equipment.flatMap((used) => (used.testId === testId ? used.codes : []))
  const example = work.specimens.flatMap((specimen) => {
    const found = work.results.find(
      ({ testId, key, unit, calculation }) =>
        testId === specimen.batchTestId && key === 'residual-binder' && unit === '% of dry aggregate' && calculation,
    )
    return found?.calculation ? [{ code: specimen.code, calculation: found.calculation }] : []
  })[0]
  return {
    equipment: work.specimens.map(({ code, testId }) => ({ code, instruments: codesOf(testId) })),
    measuredAreas: instruments.flatMap(({ code, areas }) => areas.map((areaCm2) => ({ code, areaCm2 }))),
    ...(example ? { batchExample: example } : {}),
  }
}

const kindWords = { full: 'full design', verification: 'verification at one content' } as const

function specificationOf(design: Design): SignedContent['specification'] {
  const { name, version, source, decisionRule, comparison, aggregateType, traffic, limits } = design.specification
  const differs = specificationDifference(design)
  const changes = limits.flatMap(({ label, value, unit, changedFrom, source: reason }) =>
    changedFrom
      ? [
          `${label}: ${value ?? 'no limit'} ${unit} in place of ${changedFrom.value ?? 'no limit'} ${changedFrom.unit} (${reason})`,
        ]
      : [],
  )
  return {
    name,
    version: String(version),
    ...(differs === null ? {} : { differs }),
    ...{ source, decisionRule, comparison, aggregateType, traffic: `${traffic} traffic`, changes },
  }
}

function enteredOf({ residue, moisture }: Design): SignedContent['enteredResults'] {
  const labels = { residue: 'Residue of the emulsion', 'aggregate-moisture': 'Moisture of the aggregate' } as const
  return [residue, moisture].flatMap((entered) =>
    entered
      ? [
          {
            key: entered.key,
            label: labels[entered.key],
            typed: entered.typed,
            unit: entered.unit,
            source: entered.source,
            ...(entered.madeBy === null ? {} : { madeBy: entered.madeBy }),
            observedOn: entered.observedOn,
            by: entered.by.name,
          },
        ]
      : [],
  )
}

function panelResultsOf({ panel }: RangeView): SignedContent['enteredResults'] {
  return panel.flatMap(({ key, label, ...row }) => {
    // What stands beside a value found here was entered all the same.
    const entered = row.entered ?? row.beside
    return entered
      ? [
          {
            key,
            label,
            typed: entered.typed,
            unit: entered.unit,
            source: panelResultWords(entered),
            madeBy: entered.madeBy,
            observedOn: entered.observedOn,
            by: entered.by.name,
          },
        ]
      : []
  })
}

function gradationOf(gradation: Gradation): NonNullable<SignedContent['gradation']> {
  const { sieves, madeBy, observedOn, by } = gradation
  return { sieves, madeBy, source: gradationWords(gradation), observedOn, by: by.name }
}

function replacedGradation({ gradation }: RangeView): SignedContent['corrections'] {
  if (!gradation?.supersedes) return []
  const told = (sieves: Gradation['sieves']) =>
    sieves.length === 0 ? 'file' : sieves.map(({ size, passing }) => `${size} mm ${passing} %`).join(', ')
  const { supersedes, sieves, by, at } = gradation
  const label = 'Gradation, entered'
  return [
    { code: '', label, from: told(supersedes.sieves), to: told(sieves), reason: supersedes.reason, by: by.name, at },
  ]
}

function editionOf(
  { methodKey, designation, year, revision, parameters }: UsedEdition,
  methods: readonly MethodDeclaration[],
): SignedContent['methods'][number] {
  const bounds = Object.entries(JSON.parse(parameters) as EditionParameters).sort(([a], [b]) => (a < b ? -1 : 1))
  return {
    key: methodKey,
    name: methodByKey(methods, methodKey)?.name ?? methodKey,
    designation,
    edition: revision > 1 ? `${year}, laboratory revision ${revision}` : year,
    parameters: bounds.map(([, { label, value, unit, source, clause, certainty }]) => ({
      label,
      value,
      unit,
      source: clause ? `${source}, ${clause}` : source,
      certainty,
    })),
  }
}

function instrumentOf(
  { code, name, kind, usedFor, factors, calibrations, uncalibrated }: UsedInstrument,
  methods: readonly MethodDeclaration[],
): SignedContent['instruments'][number] {
  return {
    code,
    name,
    kind: kind.replaceAll('-', ' '),
    factor: factors.join('; '),
    calibration: calibrationWords(calibrations, uncalibrated),
    usedFor: usedFor.map((key) => methodByKey(methods, key)?.shortName ?? key).join('; '),
  }
}

function calibrationWords(calibrations: readonly string[], uncalibrated: boolean): string {
  if (calibrations.length === 0) return 'no calibration on record'
  return [...calibrations, ...(uncalibrated ? ['part of the work without a calibration on record'] : [])].join('; ')
}

function recommendationOf(
  recommendation: Recommendation,
  sign: DecimalSign,
): NonNullable<SignedContent['recommendation']> {
  const span = ({ from, to }: { from: string; to: string }) =>
    `${displayDigits(from, { sign })} to ${displayDigits(to, { sign })} %`
  const { emulsionPercent, residualPercent, toleranceResidualPercent, water, filler, additive, reason, by, at } =
    recommendation
  return {
    emulsionPercent,
    residualPercent,
    toleranceResidualPercent,
    water: span(water),
    filler: span(filler),
    additive: span(additive),
    reason,
    by: by.name,
    at,
  }
}

function correctionsOf({ readings, specimens, takenBack }: WorkRecord): SignedContent['corrections'] {
  const undone = new Set(takenBack.map(({ readingId }) => readingId))
  const byTest = new Map(
    specimens.flatMap(
      (specimen) =>
        [
          [specimen.testId, specimen],
          [specimen.batchTestId, specimen],
        ] as const,
    ),
  )
  return readings.flatMap(({ testId, typed, supersedes, by, eventAt }) => {
    const specimen = byTest.get(testId)
    return supersedes && specimen && !undone.has(supersedes.id)
      ? [
          {
            code: specimen.code,
            label: `${specimen.label}, ${specimen.methodName}`,
            from: supersedes.typed,
            to: typed,
            reason: supersedes.reason,
            by: by.name,
            at: eventAt,
          },
        ]
      : []
  })
}

function replacedOf({ panel }: RangeView): SignedContent['corrections'] {
  return panel.flatMap(({ label, ...row }) => {
    const entered = row.entered ?? row.beside
    return entered?.supersedes
      ? [
          {
            code: '',
            label: `${label}, entered`,
            from: `${entered.supersedes.typed} ${entered.supersedes.unit}`,
            to: `${entered.typed} ${entered.unit}`,
            reason: entered.supersedes.reason,
            by: entered.by.name,
            at: entered.at,
          },
        ]
      : []
  })
}

function peopleOf(
  { readings, events, observations }: WorkRecord,
  enterers: SignedParts['enterers'],
): SignedContent['people'] {
  const parts = new Map<string, Set<string>>()
  const add = (name: string, part: string) => parts.set(name, (parts.get(name) ?? new Set()).add(part))
  for (const { by } of readings) add(by.name, 'weighed and read')
  for (const { by } of events) add(by.name, 'carried out steps')
  for (const { by } of observations) add(by.name, 'noted what was seen')
  for (const { name, entered } of enterers) for (const part of entered) add(name, enteredWords[part])
  return [...parts]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([name, part]) => ({ name, part: [...part].sort().join(', ') }))
}

const enteredWords = { values: 'entered residue or moisture', panel: 'entered results not computed here' } as const

function datesOf({ materials }: Design, { readings, events }: WorkRecord): SignedContent['dates'] {
  const received = Object.values(materials)
    .flatMap((material) => material?.receivedOn ?? [])
    .sort()
  const acts = [...readings, ...events].map(({ eventAt }) => eventAt).sort()
  return { received: received[0] ?? '', firstWork: acts[0] ?? '', lastWork: acts.at(-1) ?? '' }
}
