'use client'

import type { Signal } from './signal.ts'
import { tabletSettings } from './use-tablet-settings.ts'

/** Fetches how a sound is made while there is a network: it is wanted when there is none, too. */
export function readySignals(): void {
  void import('./signal.ts').catch(() => undefined)
}

/** Tells it by sound and vibration as this device is set. */
export function tellSignal(signal: Signal): void {
  const settings = tabletSettings()
  if (!settings.sound && !settings.vibration) return
  void import('./signal.ts').then(({ giveSignal }) => giveSignal(signal, settings)).catch(() => undefined)
}
