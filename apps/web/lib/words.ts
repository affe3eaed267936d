'use client'

import { useCallback } from 'react'
import { useIntl } from 'react-intl'

export type WordValues = Readonly<Record<string, string | number | boolean | Date | null | undefined>>

/**
 * The catalogue as a function: `const words = useWords(); words('people.title')`. A test looks for each key that stands
 * in such a call, so keys are written out; a key with a changing end is a template: words(`people.roleHint.${role}`).
 */
export function useWords(): (key: string, values?: WordValues) => string {
  const { formatMessage, messages } = useIntl()
  return useCallback(
    (key: string, values?: WordValues) => {
      const message = (messages as Readonly<Record<string, unknown>>)[key]
      return typeof message === 'string' ? message : formatMessage({ id: key }, values as Record<string, string>)
    },
    [formatMessage, messages],
  )
}
