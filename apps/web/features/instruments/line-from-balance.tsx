'use client'

import type { LineSettings } from '@curebook/contract/line-settings'
import { useEffect, useRef, useState } from 'react'
import { Button } from '#components/button.tsx'
import { readLines } from '#lib/balance/line-splitter.ts'
import { choosePort, serialOf, type BalancePort } from '#lib/balance/serial-port.ts'
import { useWords } from '#lib/words.ts'

/** Takes the example from the balance itself, where this browser can: the last line that came stands in the field. */
export function LineFromBalance({
  settings,
  onLine,
}: {
  settings: Omit<LineSettings, 'example' | 'shown'>
  onLine: (line: string) => void
}) {
  const words = useWords()
  const port = useRef<BalancePort>(undefined)
  const [state, setState] = useState<'off' | 'listening' | 'ended'>('off')
  const [fault, setFault] = useState<string>()
  const [can, setCan] = useState(false)
  useEffect(() => {
    setCan(serialOf(navigator) !== undefined)
    return () => void port.current?.close().catch(() => undefined)
  }, [])
  if (!can) return null
  return (
    <div className="row">
      <Button onClick={() => void (state === 'listening' ? port.current?.close() : listen())}>
        {words(state === 'listening' ? 'instruments.lineStop' : 'instruments.lineListen')}
      </Button>
      <p role="status" className="quiet">
        {fault !== undefined && words('instruments.lineNotOpened', { reason: fault })}
        {state === 'listening' && words('instruments.lineListening')}
        {state === 'ended' && fault === undefined && words('instruments.lineEnded')}
      </p>
    </div>
  )

  async function listen() {
    const serial = serialOf(navigator)
    if (serial === undefined) return
    setFault(undefined)
    try {
      const chosen = await choosePort(serial, state === 'ended' || fault !== undefined)
      await chosen.open(settings)
      port.current = chosen
      setState('listening')
      await readLines(chosen, onLine)
    } catch (cause) {
      // No port was chosen: the person turned away, which needs no words.
      if (cause instanceof Error && cause.name !== 'NotFoundError') setFault(cause.message)
    } finally {
      port.current = undefined
      setState((before) => (before === 'listening' ? 'ended' : before))
    }
  }
}
