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
    shown: shownOf(stored.hidden),
    dense: stored.dense,
    toggle: (key: ColumnKey) => store({ ...stored, hidden: toggled(stored.hidden, key) }),
    setDense: (dense: boolean) => store({ ...stored, dense }),
  }
}

/** A column left out comes back, another goes; names that are no columns any more stay out of the way. */
export function toggled(hidden: readonly string[], key: ColumnKey): readonly string[] {
  return hidden.includes(key) ? hidden.filter((one) => one !== key) : [...hidden, key]
}

/** The columns in their order, whatever was left out on this device. */
export function shownOf(hidden: readonly string[]): readonly ColumnKey[] {
  return columnKeys.filter((key) => !hidden.includes(key))
}
