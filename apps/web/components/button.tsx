'use client'

import Link from 'next/link'
import type { ComponentProps, ReactNode } from 'react'
import { useSingleAct } from '#lib/single-act.ts'
import styles from './button.module.css'

export type ButtonTone = 'main' | 'plain' | 'quiet' | 'danger'
/** `bench` is at least 60 px high, for wet and gloved hands; `small` stands in dense tables. */
export type ButtonSize = 'desk' | 'bench' | 'small'

type Look = { readonly tone?: ButtonTone; readonly size?: ButtonSize }
function classes({ tone = 'plain', size = 'desk' }: Look): string {
  return [styles.button, styles[tone], styles[size]].filter(Boolean).join(' ')
}

/**
 * A verb. `busy` keeps the words and refuses a second act. A second tap within a second on a main or dangerous act does
 * nothing; keys (Enter after each weighing) are never held up.
 */
export function Button({
  tone,
  size,
  busy = false,
  onClick,
  type = 'button',
  children,
  disabled,
  ...rest
}: ComponentProps<'button'> & Look & { busy?: boolean }) {
  const act = useSingleAct(onClick)
  return (
    <button
      {...rest}
      type={type}
      className={classes({ tone, size })}
      disabled={disabled}
      aria-disabled={busy || undefined}
      onClick={(event) => {
        const tapped = event.detail > 0 && (tone === 'main' || tone === 'danger')
        if (busy) event.preventDefault()
        else if (!tapped) onClick?.(event)
        else if (!act(event)) event.preventDefault()
      }}
    >
      {children}
    </button>
  )
}

/** Goes somewhere, looking like a button. */
export function ButtonLink({
  tone,
  size,
  href,
  children,
  ...rest
}: Look & Omit<ComponentProps<typeof Link>, 'className'> & { children: ReactNode }) {
  return (
    <Link {...rest} href={href} className={classes({ tone, size })}>
      {children}
    </Link>
  )
}
