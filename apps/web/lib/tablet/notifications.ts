'use client'

import { useCallback, useEffect, useState } from 'react'
import { ADDRESS } from './tablet-worker.ts'

/** What this browser lets a page tell outside of its own window. `missing`: it cannot at all, or not on a plain-http address. */
export type NotificationState = NotificationPermission | 'missing'

export function notificationState(
  scope: { readonly Notification?: typeof Notification } = globalThis,
): NotificationState {
  if (scope.Notification === undefined || globalThis.isSecureContext === false) return 'missing'
  return scope.Notification.permission
}

/** Undefined until it is known: the server cannot know it. */
export function useNotificationState(): readonly [NotificationState | undefined, () => void] {
  const [state, setState] = useState<NotificationState>()
  useEffect(() => {
    const look = () => setState(notificationState())
    look()
    // Allowed or blocked in the browser's own settings meanwhile.
    document.addEventListener('visibilitychange', look)
    return () => document.removeEventListener('visibilitychange', look)
  }, [])
  const ask = useCallback(() => {
    if (notificationState() === 'missing') return
    void Notification.requestPermission().then(() => setState(notificationState()))
  }, [])
  return [state, ask]
}

type Registration = Pick<ServiceWorkerRegistration, 'showNotification'>

/** This browser's worker, if one holds the bench here. */
async function registered(): Promise<Registration | undefined> {
  if (!('serviceWorker' in navigator)) return undefined
  return navigator.serviceWorker.getRegistration(ADDRESS).catch(() => undefined)
}

/**
 * Through the worker where there is one: browsers on Android refuse notifications to a page. A click on it leads back to
 * the page that it came from.
 * @returns whether it was shown: some browsers know the word and still refuse it to a page
 */
export async function showNotification(title: string, body: string, tag: string): Promise<boolean> {
  if (notificationState() !== 'granted') return false
  const options = { body, tag, requireInteraction: true }
  const worker = await registered()
  if (worker !== undefined)
    try {
      await worker.showNotification(title, { ...options, data: { place: window.location.pathname } })
      return true
    } catch {
      // Refused to the worker: the page may still be heard.
    }
  try {
    const shown = new Notification(title, options)
    shown.onclick = () => {
      window.focus()
      shown.close()
    }
    return true
  } catch {
    return false
  }
}
