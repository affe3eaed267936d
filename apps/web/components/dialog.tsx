'use client'

import dynamic from 'next/dynamic'
import type { DialogProps } from './dialog-props.ts'

// Fetched when the first dialog opens: no screen pays for it before.
const DialogFrame = dynamic(() => import('./dialog-frame.tsx').then(({ DialogFrame }) => DialogFrame), { ssr: false })

/**
 * A named dialog that keeps focus, closes on Esc and gives focus back. Rendered while it is open:
 * `{open && <Dialog title=… onClose={…}>…</Dialog>}`. Never opened from inside another one.
 */
export function Dialog(props: DialogProps) {
  return <DialogFrame {...props} />
}
