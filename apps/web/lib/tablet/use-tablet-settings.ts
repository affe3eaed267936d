'use client'

import { useMemo, useSyncExternalStore } from 'react'
import { parseTabletSettings, type TabletSettings } from './tablet-settings.ts'

const storedAs = 'curebook-tablet'
const changed = 'curebook-tablet-changed'

/** What this device is set to, and how it is set otherwise. Other tabs follow. */
export function useTabletSettings(): readonly [TabletSettings, (change: Partial<TabletSettings>) => void] {
  const stored = useSyncExternalStore(subscribe, () => localStorage.getItem(storedAs), onServer)
  return [useMemo(() => parseTabletSettings(stored), [stored]), changeTabletSettings]
}

/** As set at this moment, for what happens outside of drawing: a sound. */
export function tabletSettings(): TabletSettings {
  return parseTabletSettings(localStorage.getItem(storedAs))
}

function changeTabletSettings(change: Partial<TabletSettings>): void {
  localStorage.setItem(storedAs, JSON.stringify({ ...tabletSettings(), ...change }))
  window.dispatchEvent(new Event(changed))
}

function subscribe(onChange: () => void): () => void {
  // `storage` tells the other tabs only.
  window.addEventListener('storage', onChange)
  window.addEventListener(changed, onChange)
  return () => {
    window.removeEventListener('storage', onChange)
    window.removeEventListener(changed, onChange)
  }
}

function onServer(): null {
  return null
}
