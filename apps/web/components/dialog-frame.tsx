'use client'

import { Dialog as AriaDialog } from 'react-aria-components/Dialog'
import { Heading } from 'react-aria-components/Heading'
import { Modal, ModalOverlay } from 'react-aria-components/Modal'
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
