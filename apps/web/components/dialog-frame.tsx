'use client'

import { Dialog as AriaDialog } from 'react-aria-components/Dialog'
import { Heading } from 'react-aria-components/Heading'
import { Modal, ModalOverlay } from 'react-aria-components/Modal'
import { useEffect, useRef } from 'react'
import { useWords } from '#lib/words.ts'
import { Button } from './button.tsx'
import type { DialogProps } from './dialog-props.ts'
import styles from './dialog.module.css'

export function DialogFrame({ title, onClose, wide = false, children }: DialogProps) {
  const words = useWords()
  return (
    <ModalOverlay
      isOpen
      isDismissable={false}
      onOpenChange={(open) => !open && onClose()}
      className={styles.shade as string}
    >
      <Modal className={`${styles.modal} ${wide ? styles.wide : ''}`}>
        <AriaDialog className={styles.dialog as string}>
          <div className={styles.head}>
            <Heading slot="title" level={2}>
              {title}
            </Heading>
            <BeginHere />
            <Button tone="quiet" size="small" onClick={onClose}>
              {words('common.close')}
            </Button>
          </div>
          {children}
        </AriaDialog>
      </Modal>
    </ModalOverlay>
  )
}

const fields = ['input:not([type="hidden"], :disabled)', 'select:not(:disabled)', 'textarea:not(:disabled)']
  .map((field) => `form ${field}`)
  .join(', ')

/**
 * Puts the focus where the dialog begins: on the first field of its form, else on its heading, unless something in it took the
 * focus itself. Of several choices it is the one that is made. It is shown there however the dialog was opened; a browser
 * shows none after a touch. A dialog to be read is read from its heading: a box in it is no field to fill in.
 */
function BeginHere() {
  const place = useRef<HTMLSpanElement>(null)
  useEffect(() => {
    const dialog = place.current?.closest<HTMLElement>('[role="dialog"], [role="alertdialog"]')
    if (!dialog || dialog.contains(document.activeElement)) return
    const seen = [...dialog.querySelectorAll<HTMLElement>(fields)].filter((field) => field.getClientRects().length > 0)
    const [field] = seen
    const chosen = seen.find((one) => isChoiceOf(field, one) && one.matches(':checked'))
    const first = chosen ?? field ?? dialog.querySelector<HTMLElement>('h2')
    if (first === null) return
    if (first.tagName === 'H2') first.tabIndex = -1
    first.dataset.begin = ''
    first.addEventListener('blur', () => delete first.dataset.begin, { once: true })
    first.focus()
  }, [])
  return <span ref={place} hidden />
}

const isChoiceOf = (field: HTMLElement | undefined, other: HTMLElement) =>
  field instanceof HTMLInputElement &&
  other instanceof HTMLInputElement &&
  field.type === 'radio' &&
  other.type === 'radio' &&
  field.name === other.name
