import type { Reading, StepEvent } from '@curebook/contract/bench'
import type { SpecimenRow } from '@curebook/contract/designs'
import { observationText } from '@curebook/contract/observation-words'
import type { Observation } from '@curebook/contract/observations'
import type { SignedContent, SignedSpecimen } from '@curebook/contract/signed-content'
import { residualOfEmulsion } from '@curebook/trade/design/residual-binder'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { declaredReading } from '@curebook/trade/procedure/declared-reading'
import { displayQuantity, type DecimalSign } from '@curebook/trade/quantity/display'
import { choiceLabel, resultLabels } from '@curebook/trade/methods/result-labels'
import { findingsOf } from './late-findings.ts'
import { changedPartsOf } from './part-changes.ts'
import type { SignedParts } from './signed-parts.ts'
import type { WorkResult } from '#features/bench/work-record.service'

type Parts = Pick<SignedParts, 'design' | 'work' | 'findings' | 'methods' | 'sign' | 'range'>

/** Every specimen, void ones too, with its batch as weighed, its readings as typed, its acts and results. */
export function signedSpecimens(parts: Parts): SignedContent['specimens'] {
  return parts.work.specimens.map((specimen) => signedSpecimen(parts, specimen))
}

function signedSpecimen(
  { design, work, findings, methods, sign, range }: Parts,
  specimen: SpecimenRow,
): SignedSpecimen {
  const own = <T extends { testId: string }>(rows: readonly T[], id: string) =>
    rows.filter(({ testId }) => testId === id)
  const results = own(work.results, specimen.testId)
  // Made of the materials, it has no batch of its own.
  const ofBatch = <T extends { testId: string }>(rows: readonly T[]) =>
    specimen.batchTestId === specimen.testId ? [] : own(rows, specimen.batchTestId)
  const batchResults = ofBatch(work.results)
  const content = batchResults.find(({ key }) => key === 'emulsion-content')?.value ?? ''
  const method = methodByKey(methods, specimen.methodKey)
  const recordUnit = unitOfRecord(specimen, { method, results, range })
  const batch = methodByKey(methods, 'batch')
  const seen = [...ofBatch(work.observations), ...own(work.observations, specimen.testId)]
  return {
    code: specimen.code,
    label: specimen.label,
    form: specimen.form,
    method: specimen.methodName,
    emulsionTarget: specimen.emulsionPercent ?? '',
    emulsionAsWeighed: content,
    residualAsWeighed: content && design.residue ? residualOfEmulsion(content, design.residue.value) : '',
    purpose: specimen.purpose,
    state: specimen.state,
    remark: remarkOf(specimen, [
      ...work.deviations
        .filter(({ testId }) => testId === specimen.testId || testId === specimen.batchTestId)
        .map(({ text }) => text),
      // One about a whole oven or bath is told once, in the list of deviations.
      ...(work.deviations.some(({ specimens }) =>
        specimens.some(({ testId }) => testId === specimen.testId || testId === specimen.batchTestId),
      )
        ? ['deviation, see list']
        : []),
      ...findingsOf(specimen, findings).map(({ text }) => text),
      ...new Set([...batchResults, ...results].flatMap(({ findings: read }) => read ?? [])),
      ...changedPartsOf(specimen, work),
      ...seen.map(observationText),
    ]),
    batch: ofBatch(work.readings)
      .filter(standing)
      .map((reading) => readingLine(reading, methods, batch, work.readings)),
    readings: own(work.readings, specimen.testId)
      .filter(standing)
      .map((reading) => readingLine(reading, methods, method, work.readings)),
    events: [
      ...own(work.events, specimen.testId).map((event) => eventLine(event, method)),
      ...own(work.observations, specimen.testId).map((one) => observationLine(one, method)),
    ].sort((a, b) => (a.eventAt < b.eventAt ? -1 : a.eventAt > b.eventAt ? 1 : 0)),
    results: results
      .filter(({ unit }) => method?.place === 'panel' || unit === null || unit === 'g' || unit === (recordUnit ?? unit))
      .map((result) => resultLine(result, methods, sign, recordUnit)),
  }
}

/**
 * A result of record may stand in two units, and is signed in its curve's. Where no curve stands, or nothing of the specimen
 * in its unit, every unit is signed: undefined.
 */
function unitOfRecord(
  { methodKey }: SpecimenRow,
  { method, results, range }: { method?: MethodDeclaration; results: readonly WorkResult[] } & Pick<Parts, 'range'>,
): string | undefined {
  const unit = range.curves.find((curve) => curve.methodKey === methodKey)?.unit
  return results.some((result) => result.key === method?.resultOfRecord && result.unit === unit) ? unit : undefined
}

const standing = ({ superseded }: Reading) => !superseded

function remarkOf({ state, voidReason, replaces, purpose }: SpecimenRow, beside: readonly string[]): string {
  const parts = [
    ...(state === 'void' || state === 'replaced' ? [`void: ${voidReason ?? ''}`] : []),
    ...(replaces ? [`spare in place of ${replaces}`] : purpose === 'spare' ? ['spare, not used'] : []),
    ...beside,
  ]
  return parts.join('; ')
}

function readingLine(
  reading: Reading,
  methods: readonly MethodDeclaration[],
  method: MethodDeclaration | undefined,
  all: readonly Reading[],
): SignedSpecimen['readings'][number] {
  const step = method?.steps.find(({ key }) => key === reading.stepKey)
  const declared = method && declaredReading(methods, method, { step: reading.stepKey, key: reading.key })
  // The whole chain of corrections, oldest first. What was taken back at once is told in the list of corrections.
  const earlier: string[] = []
  for (let at = reading.supersedes; at;) {
    const before = all.find(({ id }) => id === at?.id)
    if (!before?.withdrawn) earlier.unshift(`${at.typed} (${at.reason})`)
    at = before?.supersedes ?? null
  }
  return {
    step: step?.title ?? reading.stepKey,
    label: declared?.label ?? reading.key,
    typed:
      reading.choice === null
        ? reading.typed
        : (declared?.choices?.find(({ key }) => key === reading.choice)?.label ?? reading.choice),
    unit: reading.unit ?? '',
    by: reading.transcribed ? `${reading.by.name}, from paper` : reading.by.name,
    eventAt: reading.eventAt,
    instrument: reading.instrument?.code ?? '',
    corrected: earlier.join('; '),
  }
}

function eventLine(event: StepEvent, method: MethodDeclaration | undefined): SignedSpecimen['events'][number] {
  const step = method?.steps.find(({ key }) => key === event.stepKey)
  const label = event.kind === 'void' ? 'Void' : (step?.eventLabels?.[event.kind] ?? event.kind)
  return {
    step: step?.title ?? event.stepKey,
    label,
    by: event.by.name,
    eventAt: event.eventAt,
    receivedAt: event.receivedAt,
    note: [
      event.transcribed && 'from paper',
      event.corrects && `time put right: ${event.corrects.reason}`,
      event.note,
      ...event.parts.map(({ kind, lot }) => `${kind} lot ${lot}`),
    ]
      .filter(Boolean)
      .join('; '),
  }
}

function observationLine(
  { stepKey, choice, note, by, eventAt, receivedAt, attachment }: Observation,
  method: MethodDeclaration | undefined,
): SignedSpecimen['events'][number] {
  const file = attachment && `${attachment.name} (SHA-256 ${attachment.sha256})`
  return {
    step: method?.steps.find(({ key }) => key === stepKey)?.title ?? stepKey,
    label: 'Seen',
    by: by.name,
    eventAt,
    receivedAt,
    note: [observationText({ choice, note }), file].filter(Boolean).join('; '),
  }
}

function resultLine(
  { methodKey, key, value, unit, choice, refusal, calculation }: WorkResult,
  methods: readonly MethodDeclaration[],
  sign: DecimalSign,
  recordUnit: string | undefined,
): SignedSpecimen['results'][number] {
  const { label, displayDecimals } = resultLabels(methods, methodKey, key, unit)
  const method = methodByKey(methods, methodKey)
  const ofRecord =
    method?.place === 'panel'
      ? method.answers.some(({ result }) => result === key)
      : method?.resultOfRecord === key && unit === (recordUnit ?? unit)
  return {
    key,
    label,
    value: value ?? '',
    unit: unit ?? '',
    shown:
      value === null
        ? (choiceLabel(methods, methodKey, key, choice) ?? '')
        : displayQuantity(value, unit ?? '', { decimals: displayDecimals, sign }),
    refusal: refusal ?? '',
    calculation: ofRecord ? calculation : null,
  }
}
