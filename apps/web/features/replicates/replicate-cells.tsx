'use client'

import type { ReplicateGroup } from '@curebook/contract/replicates'
import { QuantityText } from '#components/quantity-text.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { suspectsOf } from './replicate-view.ts'

/** What so many results may span by the method's repeatability, and whether they do. */
export function AcceptableCell({ group }: { group: ReplicateGroup | undefined }) {
  const words = useWords()
  if (group === undefined) return null
  const { acceptable, repeatability, displayDecimals, unit } = group
  if (acceptable === null)
    return <span className="quiet">{words(repeatability === null ? 'replicates.noLimit' : 'replicates.tooMany')}</span>
  return (
    <>
      <QuantityText digits={acceptable.limit} unit={unit} decimals={displayDecimals} />{' '}
      <StatusMark status={acceptable.within ? 'met' : 'differs'}>
        {words(`replicates.within.${acceptable.within}`)}
      </StatusMark>
    </>
  )
}

/** Each test by name with its statistic and what it is held against; the result that it names, or that it names none. */
export function OutlierCell({ group }: { group: ReplicateGroup | undefined }) {
  const words = useWords()
  const { digits, quantity } = useLaboratoryFormat()
  if (group === undefined) return null
  if (group.untested !== null) return <span className="quiet">{words(`replicates.untested.${group.untested}`)}</span>
  const suspects = suspectsOf(group)
  return (
    <>
      {suspects.length === 0 && words('replicates.noneOut')}
      {suspects.map(({ suspect, tests }) => (
        <p key={suspect.testId}>
          <StatusMark status="undecided">
            {words('replicates.out', {
              value: quantity(suspect.value, group.unit, group.displayDecimals),
              label: suspect.label,
              code: suspect.code,
              tests: tests.join(', '),
            })}
          </StatusMark>
        </p>
      ))}
      <ul className="plain-list small quiet">
        {group.outliers.map(({ test, ratio, statistic, critical, significancePercent }) => (
          <li key={test} className="nowrap">
            {words('replicates.test', {
              test,
              ratio,
              // Of three results the greatest T there is and its critical value differ in the fourth.
              statistic: digits(statistic, 4),
              critical: digits(critical, 4),
              percent: digits(significancePercent),
            })}
          </li>
        ))}
      </ul>
    </>
  )
}
