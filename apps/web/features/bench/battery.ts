'use client'

import { useEffect, useState } from 'react'

export type BatteryLook = { readonly level: number; readonly charging: boolean }

/** Below this share a tablet may not last until the end of a window. Our own choice, no source. */
const LOW = 0.15

/** What is left in percent where that is too little and nothing charges it; else undefined. */
export function lowBattery({ level, charging }: BatteryLook): number | undefined {
  return charging || level >= LOW ? undefined : Math.floor(level * 100)
}

type Battery = BatteryLook & EventTarget

/** As `lowBattery`, of this device; undefined where a page is not told. */
export function useLowBattery(): number | undefined {
  const [left, setLeft] = useState<number>()
  useEffect(() => {
    let battery: Battery | undefined
    const look = () => setLeft(battery === undefined ? undefined : lowBattery(battery))
    let gone = false
    const own = navigator as { getBattery?: () => Promise<Battery> }
    void own.getBattery?.().then(
      (found) => {
        if (gone) return
        battery = found
        for (const change of ['levelchange', 'chargingchange']) found.addEventListener(change, look)
        look()
      },
      () => undefined,
    )
    return () => {
      gone = true
      for (const change of ['levelchange', 'chargingchange']) battery?.removeEventListener(change, look)
    }
  }, [])
  return left
}
