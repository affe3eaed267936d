'use client'

import type { Calculation } from '@curebook/contract/results'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { CalculationDialog } from '#components/calculation-dialog.tsx'
import { useWords } from '#lib/words.ts'

/** Opens the working of a number that carries it. `title` names both the button and the dialog. */
export function ShowCalculation({
  title,
  calculation,
  decimals,
}: {
  title: string
  calculation: Calculation
  decimals?: number
}) {
  const words = useWords()
  const [open, setOpen] = useState(false)
  return (
    <>
      <Button size="small" onClick={() => setOpen(true)} aria-label={title}>
        {words('common.showCalculation')}
      </Button>
      {open && (
        <CalculationDialog title={title} calculation={calculation} decimals={decimals} onClose={() => setOpen(false)} />
      )}
    </>
  )
}
