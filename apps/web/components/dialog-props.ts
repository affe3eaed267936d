import type { ReactNode } from 'react'

export type DialogProps = {
  readonly title: string
  readonly onClose: () => void
  readonly wide?: boolean
  readonly children: ReactNode
}
