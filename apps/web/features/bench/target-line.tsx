'use client'

import type { TestView } from '@curebook/contract/bench'
import type { ReadingContext } from '@curebook/trade/procedure/reading-check'
import { isUnit, units, writtenUnit } from '@curebook/trade/quantity/unit-table'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { differenceOf } from './difference.ts'
import type { ReadingSlot } from './reading-slots.ts'
import styles from './bench.module.css'

/** What is asked for beside what is typed; else what was weighed before, with the difference as one types. */
export function TargetLine({
  slot,
  context,
  typed,
  view,
}: {
  slot: ReadingSlot
  context: ReadingContext
  typed: string
  view: TestView
}) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const { unit, key } = slot.declaration
  if (context.target !== undefined) {
    const shown = format.quantity(context.target, unit, decimalsOf(slot.declaration.resolution))
    return (
      <dl className="facts">
        <div>
          <dt>{words('bench.target')}</dt>
          <dd className={styles.value}>{shown}</dd>
        </div>
        <div>
          <dt>{words('bench.offTarget')}</dt>
          <dd className={styles.value}>{signedOff(context.target, typed, unit, format.quantity)}</dd>
        </div>
      </dl>
    )
  }
  // The age of another ring says nothing of this one.
  if (slot.declaration.since !== undefined) return null
  // Earlier readings of the same kind at other steps of this specimen: W1 beside W2.
  const before = view.readings.filter(
    (reading) =>
      !reading.superseded &&
      reading.key === key &&
      reading.stepKey !== slot.stepKey &&
      reading.unit === unit &&
      unit !== undefined,
  )
  if (before.length === 0) return null
  return (
    <dl className="facts">
      {before.map((reading) => (
        <div key={reading.id}>
          <dt>
            {view.method.steps.find((step: { key: string }) => step.key === reading.stepKey)?.title ?? reading.stepKey}
          </dt>
          <dd className={styles.valueSmall}>
            <AsTyped typed={reading.typed} unit={unit} />
          </dd>
        </div>
      ))}
      <RunningDifference before={before.at(-1)?.typed ?? ''} typed={typed} unit={unit} />
    </dl>
  )
}

/** Loss or gain against the weighing before, while one types; of anything but a mass, the difference with its sign. */
export function RunningDifference({
  before,
  typed,
  unit,
}: {
  before: string
  typed: string
  unit: string | undefined
}) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const difference = differenceOf(before, typed, unit)
  const mass = isMass(unit)
  return (
    <div>
      <dt>{words(mass ? `bench.difference.${difference?.sense ?? 'loss'}` : 'bench.differenceHead')}</dt>
      <dd className={mass ? styles.value : styles.valueSmall} data-testid="difference">
        {difference === undefined
          ? '–'
          : mass
            ? format.quantity(difference.digits, unit)
            : signedOff(before, typed, unit, format.quantity)}
      </dd>
    </div>
  )
}

/** As typed, with the laboratory's decimal sign, and the unit where the person left it out. */
export function AsTyped({ typed, unit }: { typed: string; unit: string | undefined }) {
  const { decimalSign } = useLaboratoryFormat()
  if (!/^[+-]?\d+([.,]\d+)?$/.test(typed.trim())) return <>{typed}</>
  const digits = typed.trim().replace(/[.,]/, decimalSign)
  return <>{writtenUnit(unit) === '' ? digits : `${digits}\u00a0${writtenUnit(unit)}`}</>
}

export function isMass(unit: string | undefined): boolean {
  return unit !== undefined && isUnit(unit) && units[unit].dimension === 'mass'
}

export function decimalsOf(resolution: string | undefined): number | undefined {
  return resolution === undefined ? undefined : (resolution.split('.')[1]?.length ?? 0)
}

function signedOff(
  target: string,
  typed: string,
  unit: string | undefined,
  quantity: (digits: string, unit?: string) => string,
): string {
  const off = differenceOf(target, typed, unit)
  if (off === undefined) return '–'
  return `${off.sense === 'loss' ? '−' : off.sense === 'gain' ? '+' : ''}${quantity(off.digits, unit)}`
}
