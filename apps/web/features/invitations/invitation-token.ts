'use client'

import { useEffect, useState } from 'react'

const KEPT_AS = 'curebook-invitation'

/**
 * The token of the link that was opened. It stands behind the `#`, which no server sees, and is kept in this tab while
 * its person signs in. Undefined until the page has looked, null when there is none.
 */
export function useInvitationToken(): string | null | undefined {
  const [token, setToken] = useState<string | null>()
  useEffect(() => {
    const given = window.location.hash.slice(1)
    if (given !== '') sessionStorage.setItem(KEPT_AS, given)
    setToken(given === '' ? sessionStorage.getItem(KEPT_AS) : given)
  }, [])
  return token
}

export function forgetInvitationToken(): void {
  sessionStorage.removeItem(KEPT_AS)
}
