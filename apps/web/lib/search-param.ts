'use client'

import { usePathname, useRouter, useSearchParams } from 'next/navigation'
import { useCallback } from 'react'

/**
 * One part of a view that stands in its address (filter, sort, tab, page), so that Back and a shared link work.
 * An empty text takes it out of the address.
 */
export function useSearchParam(
  name: string,
  otherwise = '',
): [string, (value: string, options?: { readonly push?: boolean }) => void] {
  const search = useSearchParams()
  const path = usePathname()
  const router = useRouter()
  const set = useCallback(
    (value: string, { push = false }: { readonly push?: boolean } = {}) => {
      // The address as it is at this moment: two changes in one act must not undo each other.
      const next = new URLSearchParams(window.location.search)
      if (value === '' || value === otherwise) next.delete(name)
      else next.set(name, value)
      const address = next.size === 0 ? path : `${path}?${next}`
      if (push) router.push(address, { scroll: false })
      else router.replace(address, { scroll: false })
    },
    [name, otherwise, path, router],
  )
  return [search.get(name) ?? otherwise, set]
}
