'use client'

import type { WallShown } from '@curebook/contract/wall'
import { windowsAt } from '@curebook/trade/procedure/wall'
import { useMemo } from 'react'
import { Icon } from '#components/icon.tsx'
import { LaboratoryStyleContext, useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useTickingNow } from '#lib/ticking-now.ts'
import { useWords } from '#lib/words.ts'
import { useNewBuild } from './use-new-build.ts'
import { WallOvens } from './wall-ovens.tsx'
import { WallPeople } from './wall-people.tsx'
import { freshnessOf } from './wall-time.ts'
import { ClosingWindows, NextWindows } from './wall-windows.tsx'
import styles from './wall.module.css'

/** The wall itself: read from five metres, touched by nobody. All of it follows from times and the moving clock. */
export function WallBoard({ wall, failed }: { wall: WallShown; failed: boolean }) {
  const { zone, language, decimalSign } = wall
  useNewBuild(wall.build)
  const style = useMemo(
    () => ({ zone, language, decimalSign: decimalSign === 'comma' ? (',' as const) : ('.' as const) }),
    [zone, language, decimalSign],
  )
  return (
    <LaboratoryStyleContext.Provider value={style}>
      <Board wall={wall} failed={failed} />
    </LaboratoryStyleContext.Provider>
  )
}

function Board({ wall, failed }: { wall: WallShown; failed: boolean }) {
  const words = useWords()
  const now = useTickingNow(wall.now)
  const freshness = freshnessOf(wall.now, now, failed)
  const windows = windowsAt(wall.windows, now)
  return (
    <main className={`${styles.wall} ${styles.board} ${freshness === 'old' ? styles.old : ''}`}>
      <title>{`${wall.screen} – ${words('wall.title')} – ${words('common.site')}`}</title>
      <Head wall={wall} now={now} lost={freshness !== 'fresh'} />
      <div className={styles.column}>
        <ClosingWindows windows={windows} now={now} />
        <NextWindows rows={windows.next} now={now} />
      </div>
      <div className={styles.column}>
        <WallOvens ovens={wall.ovens} now={now} />
        <WallPeople wall={wall} now={now} />
      </div>
    </main>
  )
}

function Head({ wall, now, lost }: { wall: WallShown; now: number; lost: boolean }) {
  const words = useWords()
  const { instant } = useLaboratoryFormat()
  const iso = new Date(now).toISOString()
  return (
    <header className={styles.head}>
      <time className={styles.clock} dateTime={iso} role="timer" aria-live="off">
        {instant(iso, 'clock')}
      </time>
      <span className={styles.date}>{instant(iso, 'weekday')}</span>
      <div className={styles.where} role="status">
        {lost ? (
          <strong className={styles.lost}>
            <Icon name="warning" />
            {words('wall.lost', { time: instant(wall.now, 'clock') })}
          </strong>
        ) : (
          <h1>{words('wall.where', { laboratory: wall.laboratory, screen: wall.screen })}</h1>
        )}
      </div>
    </header>
  )
}
