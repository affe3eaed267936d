'use client'

import { Button } from '#components/button.tsx'
import { useWords } from '#lib/words.ts'
import styles from './schedule.module.css'

/** Changes of others, told without moving a row; they show when they are asked for. */
export function ScheduleChanges({ count, onShow }: { count: number; onShow: () => void }) {
  const words = useWords()
  return (
    <div role="status" className="no-print">
      {count > 0 && (
        <div className={`${styles.changes} row row-between`}>
          <span>{words('schedule.changes', { count })}</span>
          <Button size="small" onClick={onShow}>
            {words('schedule.showChanges')}
          </Button>
        </div>
      )}
    </div>
  )
}
