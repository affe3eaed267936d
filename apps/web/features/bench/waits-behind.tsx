'use client'

import { useWords } from '#lib/words.ts'

/** Why something on this device does not go though the network is there: what was refused before it, by its label. */
export function WaitsBehind({ label }: { label: string | undefined }) {
  const words = useWords()
  return label !== undefined && <span className="strong">{words('bench.actBehind', { label })}</span>
}
