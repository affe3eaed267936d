'use client'

import { Button } from '#components/button.tsx'
import { Icon } from '#components/icon.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { useLowBattery } from './battery.ts'
import { useTitleSign } from './use-window-warnings.ts'
import type { DueWarning } from './window-warnings.ts'
import styles from './bench.module.css'

/** Windows that close soon, as they were told, until somebody says that they saw it; and a battery that may not last. */
export function StandingWarnings({ warnings, onSeen }: { warnings: readonly DueWarning[]; onSeen: () => void }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const battery = useLowBattery()
  useTitleSign(warnings.length > 0 ? words('bench.warning.sign') : undefined)
  return (
    <>
      {warnings.length > 0 && (
        <section className={`${styles.question} row no-print`} role="group" aria-label={words('bench.warning.title')}>
          <ul className="plain-list stack stack-tight" style={{ flex: '1 1 16rem' }}>
            {warnings.map(({ window, name, closesAt }) => (
              <li key={window} className="row">
                <Icon name="clock" />
                {words('bench.warning.closes', { name, time: format.instant(closesAt, 'clock') })}
              </li>
            ))}
          </ul>
          <Button size="bench" onClick={onSeen}>
            {words('bench.warning.seen')}
          </Button>
        </section>
      )}
      {battery !== undefined && (
        <p className="caution no-print" role="status">
          {words('bench.battery', { percent: battery })}
        </p>
      )}
    </>
  )
}
