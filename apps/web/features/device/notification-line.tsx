'use client'

import { useEffect, useState } from 'react'
import { Button } from '#components/button.tsx'
import { Icon } from '#components/icon.tsx'
import { type NotificationState, useNotificationState } from '#lib/tablet/notifications.ts'
import { useWords } from '#lib/words.ts'

const storedAs = 'curebook-notifications-away'

/** With which state the line was put away on this device; changed since, it is said again. */
function usePutAway(): readonly [string | null, (state: NotificationState) => void] {
  const [away, setAway] = useState<string | null>(null)
  useEffect(() => setAway(localStorage.getItem(storedAs)), [])
  return [
    away,
    (state) => {
      localStorage.setItem(storedAs, state)
      setAway(state)
    },
  ]
}

/** Whether a warning can reach who looks at another window, said before it is needed; `absent`: only where it cannot, until it is put away. */
export function NotificationLine({ absent = false }: { absent?: boolean }) {
  const words = useWords()
  const [state, ask] = useNotificationState()
  const [away, putAway] = usePutAway()
  if (state === undefined || (absent && (state === 'granted' || state === away))) return null
  return (
    <div className="row no-print" role="note" aria-label={words('device.notifications')}>
      <Icon name={state === 'granted' ? 'tick' : 'warning'} />
      <span style={{ flex: '1 1 16rem' }}>{words(`device.notificationsAre.${state}`)}</span>
      {state === 'default' && <Button onClick={ask}>{words('device.allowNotifications')}</Button>}
      {absent && (
        <Button tone="quiet" onClick={() => putAway(state)}>
          {words('device.putNotificationsAway')}
        </Button>
      )}
    </div>
  )
}
