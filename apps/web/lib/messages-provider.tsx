'use client'

import { useMemo, type ReactNode } from 'react'
import { IntlProvider, useIntl } from 'react-intl'
import type { Catalogue } from './catalogue.ts'

type Messages = React.ComponentProps<typeof IntlProvider>['messages']

/** The language of the pages and the words that every page has. */
export function BaseMessages({
  locale,
  messages,
  children,
}: {
  locale: string
  messages: Catalogue
  children: ReactNode
}) {
  return (
    <IntlProvider locale={locale} messages={messages as Messages}>
      {children}
    </IntlProvider>
  )
}

/** Adds the words of a feature to those around it. */
export function MoreMessages({ messages, children }: { messages: Catalogue; children: ReactNode }) {
  const around = useIntl()
  const all = useMemo(() => ({ ...around.messages, ...messages }) as Messages, [around.messages, messages])
  return (
    <IntlProvider locale={around.locale} messages={all}>
      {children}
    </IntlProvider>
  )
}
