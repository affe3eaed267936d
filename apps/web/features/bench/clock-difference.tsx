'use client'

import { Icon } from '#components/icon.tsx'
import { formatSpan } from '#lib/laboratory-time.ts'
import { useWords } from '#lib/words.ts'
import { isWorthSaying } from './laboratory-clock.ts'

/** Says that this device's clock is off, and whose time is shown; silent while it is right. */
export function ClockDifference({ offset }: { offset: number }) {
  const words = useWords()
  const off = isWorthSaying(offset)
  return (
    <div role="status" className={off ? 'no-print' : 'sr-only'}>
      {off && (
        <p className="caution row">
          <Icon name="clock" />
          {words('bench.clockOff', {
            span: formatSpan(Math.abs(offset)),
            sense: offset > 0 ? 'behind' : 'ahead',
          })}
        </p>
      )}
    </div>
  )
}
