'use client'

import { createContext, useCallback, useContext, useRef, useState, type ReactNode } from 'react'
import { Icon } from './icon.tsx'
import styles from './toast.module.css'

type Confirm = (sentence: string) => void
const ToastContext = createContext<Confirm>(() => undefined)
const SHOWN_MS = 5_000

/** Says that something was done. Confirmations only: never an error, never the only copy of something. */
export function useConfirmation(): Confirm {
  return useContext(ToastContext)
}

export function ToastProvider({ children }: { children: ReactNode }) {
  const [shown, setShown] = useState<readonly { readonly id: number; readonly sentence: string }[]>([])
  const count = useRef(0)
  const confirm = useCallback((sentence: string) => {
    const id = (count.current += 1)
    setShown((before) => [...before, { id, sentence }])
    setTimeout(() => setShown((before) => before.filter((toast) => toast.id !== id)), SHOWN_MS)
  }, [])
  return (
    <ToastContext.Provider value={confirm}>
      {children}
      <div className={`${styles.toasts} no-print`} role="status">
        {shown.map(({ id, sentence }) => (
          <div key={id} className={styles.toast}>
            <Icon name="tick" />
            {sentence}
          </div>
        ))}
      </div>
    </ToastContext.Provider>
  )
}
