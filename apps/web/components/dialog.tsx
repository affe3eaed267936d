'use client'

import type { DialogProps } from './dialog-props.ts'
import { lazyPart } from './lazy-part.tsx'

/**
 * A named dialog that keeps focus, closes on Esc and gives focus back. Rendered while it is open:
 * `{open && <Dialog title=… onClose={…}>…</Dialog>}`. Never opened from inside another one. Its frame is fetched when the first
 * one opens: no screen pays for it before.
 */
export const Dialog = lazyPart<DialogProps>(() => import('./dialog-frame.tsx').then(({ DialogFrame }) => DialogFrame))
