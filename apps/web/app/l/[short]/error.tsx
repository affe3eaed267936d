'use client'

import { BrokenPage } from '#features/shell/broken-page.tsx'

export default function LaboratoryError({ reset }: { reset: () => void }) {
  return <BrokenPage onRetry={reset} />
}
