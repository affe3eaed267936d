'use client'

import type { Schedule } from '@curebook/contract/schedule'
import { useEffect, useRef, useState } from 'react'
import { changesBetween } from './schedule-view.ts'

/**
 * Rows do not move under the pointer: what others change waits until it is asked for. What a person does here shows at
 * once, by `showNext` before the act.
 */
export function useHeldSchedule(fresh: Schedule) {
  const [shown, setShown] = useState(fresh)
  const own = useRef(false)
  const changes = changesBetween(shown.rows, fresh.rows)
  useEffect(() => {
    if (!own.current && changes > 0) return
    own.current = false
    setShown(fresh)
  }, [fresh, changes])
  return {
    shown,
    changes,
    show: () => setShown(fresh),
    showNext: () => {
      own.current = true
    },
  }
}
