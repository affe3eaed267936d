'use client'

import { useEffect, useRef, useState, useSyncExternalStore, type RefObject } from 'react'
import { createBalanceLink, type LinkState } from '#lib/balance/balance-link.ts'
import { goesInto, type SentWeight } from '#lib/balance/sent-weight.ts'
import { tabletSettings } from '#lib/tablet/use-tablet-settings.ts'
import type { BenchInstrument } from './instrument-choice.ts'
import { isTakenElsewhere } from './open-field.ts'

/** One line for all fields of this page: connected once, it stays while one goes from specimen to specimen. */
export const balanceLink = createBalanceLink()

const off: LinkState = { state: 'off', instrumentId: undefined }

export function useLinkState(): LinkState {
  return useSyncExternalStore(balanceLink.watch, balanceLink.state, () => off)
}

/**
 * Weights that the chosen balance sends while this field is open. `put` writes one into the field as if typed; `store`
 * presses the main button with it, where this tablet is set so and the print key was pressed.
 */
export function useSentWeight({
  field,
  instrument,
  on,
  typed,
  put,
  store,
}: {
  field: RefObject<HTMLInputElement | null>
  instrument: Pick<BenchInstrument, 'id'> | undefined
  on: boolean
  typed: string
  put: (typed: string) => void
  store: (typed: string) => void
}) {
  const { state, instrumentId } = useLinkState()
  const [told, setTold] = useState<string>()
  const said = useRef(new Set<string>())
  const last = useRef<string>(undefined)
  const listening = on && state === 'connected' && instrumentId === instrument?.id

  function take(weight: SentWeight) {
    if (isTakenElsewhere(field.current)) return
    if (weight.kind === 'not-understood') {
      // Each kind of line once: a balance that is not at rest says so many times a second.
      const kind = weight.message.replace(/^“.*”/, '')
      if (!said.current.has(kind)) setTold(weight.message)
      said.current.add(kind)
      return
    }
    if (!goesInto({ typed, put: last.current, heldOver: balanceLink.heldOver() }, weight)) return
    last.current = weight.typed
    setTold(undefined)
    put(weight.typed)
    if (weight.pressed && tabletSettings().storeSent) store(weight.typed)
  }
  const latest = useRef(take)
  useEffect(() => {
    latest.current = take
  })
  useEffect(() => (listening ? balanceLink.listen((weight) => latest.current(weight)) : undefined), [listening])
  return { /** What was not understood, with its sentence. */ told }
}

/** While no field is open: a weight that somebody pressed for is told of, and what is sent all the time is not. */
export function usePressedWeight(
  instrument: BenchInstrument | undefined,
  take: ((typed: string) => void) | undefined,
): void {
  const { state, instrumentId } = useLinkState()
  const latest = useRef(take)
  useEffect(() => {
    latest.current = take
  })
  const listening = take !== undefined && state === 'connected' && instrumentId === instrument?.id
  useEffect(() => {
    if (!listening) return undefined
    return balanceLink.listen((weight) => {
      if (weight.kind === 'weight' && weight.pressed && !isTakenElsewhere(undefined)) latest.current?.(weight.typed)
    })
  }, [listening])
}
