'use client'

import { useRemembered } from './remembered-view.ts'

/** Columns that can be left out; the test itself always stands first. */
export const columnKeys = ['urgency', 'window', 'step', 'design', 'person'] as const
export type ColumnKey = (typeof columnKeys)[number]

export type TableLook = ReturnType<typeof useTableLook>

/** Which columns a person sees and how tight the rows are, remembered for them on this device. */
export function useTableLook() {
  const [stored, store] = useRemembered('look', { hidden: [] as readonly string[], dense: false })
  return {
    shown: columnKeys.filter((key) => !stored.hidden.includes(key)),
    dense: stored.dense,
    toggle: (key: ColumnKey) =>
      store({
        ...stored,
        hidden: stored.hidden.includes(key) ? stored.hidden.filter((one) => one !== key) : [...stored.hidden, key],
      }),
    setDense: (dense: boolean) => store({ ...stored, dense }),
  }
}
