'use client'

import type { UseQueryResult } from '@tanstack/react-query'
import type { ReactNode } from 'react'
import { ErrorState } from './error-state.tsx'
import { Skeleton } from './skeleton.tsx'

/** A query on screen: a block while it loads, what failed with Retry, or its content. `what` reads "the people". */
export function Loaded<Data>({
  query,
  what,
  height = '12rem',
  children,
}: {
  query: UseQueryResult<Data>
  what: string
  height?: string
  children: (data: Data) => ReactNode
}) {
  if (query.data !== undefined) return <>{children(query.data)}</>
  if (query.isError) return <ErrorState what={what} error={query.error} onRetry={() => void query.refetch()} />
  return <Skeleton height={height} what={what} />
}
