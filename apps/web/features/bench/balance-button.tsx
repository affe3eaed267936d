'use client'

import { useEffect, useRef, useState } from 'react'
import { Button } from '#components/button.tsx'
import { choosePort, serialOf } from '#lib/balance/serial-port.ts'
import { useWords } from '#lib/words.ts'
import type { BenchInstrument } from './instrument-choice.ts'
import { balanceLink, useLinkState } from './use-sent-weight.ts'

/** What was connected and let go again may have been another device: then the person chooses anew. */
let letGo = false

/** Connects the balance that is chosen, where it is known how it sends and this browser has serial lines; else nothing. */
export function BalanceButton({ instrument, told }: { instrument: BenchInstrument; told: string | undefined }) {
  const words = useWords()
  const { state, instrumentId, reason } = useLinkState()
  const [can, setCan] = useState(false)
  const place = useRef<HTMLDivElement>(null)
  useEffect(() => setCan(serialOf(navigator) !== undefined), [])
  const { id, code } = instrument
  // What an answer kept from before this was known does not name is not known.
  const line = instrument.line ?? null
  if (!can || line === null) return null
  const here = instrumentId === id ? state : 'off'
  const trouble = {
    lost: words('bench.balance.lost', { code }),
    'not-opened': words('bench.balance.notOpened', { code, reason: reason ?? '' }),
  }[here as string]
  return (
    <div className="stack stack-tight" ref={place}>
      <div className="row">
        {here === 'connected' ? (
          <Button
            size="bench"
            tone="quiet"
            onClick={() => {
              letGo = true
              void balanceLink.disconnect()
            }}
          >
            {words('bench.balance.disconnect', { code })}
          </Button>
        ) : (
          <Button
            size="bench"
            busy={here === 'connecting'}
            onClick={() => {
              const serial = serialOf(navigator)
              if (serial === undefined) return
              const ask = letGo || here === 'not-opened'
              letGo = false
              void connect(line, () => choosePort(serial, ask))
            }}
          >
            {words('bench.balance.connect', { code })}
          </Button>
        )}
        <span role="status">{here === 'connected' && words('bench.balance.connected', { code })}</span>
        {/* Beside the button, not under it: there the bar of the main button lies over it. */}
        <div role="alert" style={trouble === undefined ? undefined : { flex: '1 1 20rem' }}>
          {trouble !== undefined && <p className="caution">{trouble}</p>}
        </div>
      </div>
      <div role="status">{told !== undefined && <p className="caution">{told}</p>}</div>
    </div>
  )

  /** Afterwards the field has the focus again: Enter stores what the balance sends, and does not let go of it. */
  async function connect(as: NonNullable<BenchInstrument['line']>, choose: () => ReturnType<typeof choosePort>) {
    await balanceLink.connect(id, as, choose)
    if (balanceLink.state().state === 'connected') place.current?.parentElement?.querySelector('input')?.focus()
  }
}
