'use client'

import { useEffect, useId, useRef } from 'react'
import { Button } from '#components/button.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'

/**
 * Asks once before an entry is deleted from the device, by its name and time, in the place of the button that was pressed: a
 * dialog opens none of its own. The focus goes to the question; Esc leaves the entry where it is, and the dialog open.
 */
export function AskTakeOut({
  label,
  at,
  onTakeOut,
  onLeave,
}: {
  label: string
  at: string
  onTakeOut: () => void
  onLeave: () => void
}) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const id = useId()
  const box = useRef<HTMLDivElement>(null)
  const question = useRef<HTMLParagraphElement>(null)
  useEffect(() => question.current?.focus(), [])
  useEffect(() => {
    const asked = box.current
    const leave = (event: KeyboardEvent) => {
      if (event.key !== 'Escape') return
      event.stopPropagation()
      onLeave()
    }
    asked?.addEventListener('keydown', leave)
    return () => asked?.removeEventListener('keydown', leave)
  }, [onLeave])
  return (
    <div role="group" aria-labelledby={`${id}-question`} className="caution stack stack-tight" ref={box}>
      <p id={`${id}-question`} ref={question} tabIndex={-1} data-begin="">
        {words('shell.outbox.askTakeOut', { entry: label, time: format.instant(at, 'short') })}
      </p>
      <span className="row">
        <Button size="bench" tone="danger" onClick={onTakeOut}>
          {words('shell.outbox.takeOut')}
        </Button>
        <Button size="bench" onClick={onLeave}>
          {words('shell.outbox.leave')}
        </Button>
      </span>
    </div>
  )
}
