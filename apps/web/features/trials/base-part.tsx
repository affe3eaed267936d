'use client'

import type { Design } from '@curebook/contract/designs'
import type { TrialCup } from '@curebook/contract/trials'
import { waterForEmulsion } from '@curebook/trade/design/trial-base'
import { useQuery } from '@tanstack/react-query'
import { Button } from '#components/button.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { waterAt } from './base-rows.ts'
import { trialQueries } from './trials.queries.ts'

type Row = {
  readonly emulsionPercent: string
  readonly waterPercent: string
  readonly fillerPercent: string
  readonly additivePercent: string
}

/** In the plan of a series: one act fills water, filler and additive from the cup that was chosen as base. */
export function BasePart<R extends Row>({
  design,
  rows,
  onRows,
}: {
  design: Design
  rows: readonly R[]
  onRows: (rows: readonly R[]) => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const { digits } = useLaboratoryFormat()
  const { data } = useQuery({ ...trialQueries.cups(lab.id, design), enabled: lab.may('trial-cup:read') })
  const cup = data?.cups.find(({ number }) => number === data.base?.number)
  if (cup === undefined) return null
  return (
    <div className="row">
      <Button size="small" onClick={() => onRows(rows.map((row) => filled(row, cup)))}>
        {words('trials.fillFrom', { number: cup.number })}
      </Button>
      <span className="quiet small">{words('trials.fillAbout', { step: digits(waterForEmulsion) })}</span>
    </div>
  )
}

function filled<R extends Row>(row: R, cup: TrialCup): R {
  return {
    ...row,
    waterPercent: waterAt(cup, row.emulsionPercent, waterForEmulsion),
    fillerPercent: cup.filler.value,
    additivePercent: cup.additive.value,
  }
}
