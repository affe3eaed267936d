import type { BatchSheet, SpecimenRow } from '@curebook/contract/designs'
import type { StepDeclaration } from '@curebook/trade/procedure/declaration'
import { slotsOfStep, type ReadingSlot } from '#features/bench/reading-slots.ts'

/** A box of a bench sheet: the time of an act, or a reading. */
export type SheetColumn =
  | { readonly key: string; readonly kind: 'act'; readonly act: 'start' | 'end'; readonly label: string }
  | { readonly key: string; readonly kind: 'reading'; readonly slot: ReadingSlot; readonly label: string }

/** The boxes of a step in the order of the work: its start, its readings, its end. */
export function sheetColumns(
  step: StepDeclaration,
  actWords: Readonly<Record<'start' | 'end', string>>,
): readonly SheetColumn[] {
  const act = (kind: 'start' | 'end'): readonly SheetColumn[] =>
    step.events.includes(kind)
      ? [{ key: kind, kind: 'act', act: kind, label: step.eventLabels?.[kind] ?? actWords[kind] }]
      : []
  const readings = slotsOfStep(step).map((slot): SheetColumn => {
    const { declaration, repeat } = slot
    const many = (declaration.repeats ?? 1) > 1
    return {
      key: `${declaration.key}/${repeat}`,
      kind: 'reading',
      slot,
      label: many ? `${declaration.label} ${repeat}` : declaration.label,
    }
  })
  return [...act('start'), ...readings, ...act('end')]
}

export type SheetRow = {
  readonly testId: string
  readonly code: string
  readonly label: string
  /** Test of the specimen: a batch is as large as the edition asks that it was planned under. */
  readonly specimenTestId: string
}

/** What of a design a sheet may be of: specimens of a method that are still in work, or their batches. */
export function sheetRows(specimens: readonly SpecimenRow[], methodKey: string): readonly SheetRow[] {
  const inWork = specimens.filter(({ state }) => state !== 'void' && state !== 'replaced')
  if (methodKey === 'batch')
    return inWork
      .filter(({ batchTestId, testId }) => batchTestId !== testId)
      .map((specimen) => ({ ...rowOf(specimen), testId: specimen.batchTestId, code: `${specimen.code}.B` }))
  return inWork.filter((specimen) => specimen.methodKey === methodKey).map(rowOf)
}

const rowOf = ({ testId, code, label }: SpecimenRow): SheetRow => ({
  testId,
  code,
  label,
  specimenTestId: testId,
})

/** What is to be weighed of a component into the batch of a row, g at full precision; undefined where no sheet says. */
export function targetOf(sheets: readonly BatchSheet[], row: SheetRow, component: string): string | undefined {
  return sheets
    .find(({ testIds }) => testIds.includes(row.specimenTestId))
    ?.rows.find((one) => one.component === component)?.targetG
}
