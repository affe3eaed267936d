'use client'

import { useEffect, useState } from 'react'
import { usualInstrument, type Choosable } from './instrument-choice.ts'

/** The instrument in use for a kind of act on this device; the choice is kept for the next time. */
export function useInstrument<One extends Choosable>(use: string, fitting: readonly One[]) {
  const storedAs = `curebook-instrument-${use}`
  const [chosen, setChosen] = useState<string | null>(null)
  useEffect(() => setChosen(localStorage.getItem(storedAs)), [storedAs])
  return {
    instrument: usualInstrument(fitting, chosen),
    choose: (id: string) => {
      localStorage.setItem(storedAs, id)
      setChosen(id)
    },
  }
}
