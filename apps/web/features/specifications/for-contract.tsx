'use client'

import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { projectQueries } from '#features/projects/projects.queries.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useSearchParam } from '#lib/search-param.ts'
import { useWords } from '#lib/words.ts'

/** The contract that a copy is made for, as the address names it; from there one came, and goes back with the copy chosen. */
export function useContract() {
  const lab = useLaboratory()
  const [project] = useSearchParam('project')
  return {
    projectId: project === '' ? undefined : project,
    addressOf: (id: string) =>
      project === '' ? `/l/${lab.short}/specifications/${id}` : `/l/${lab.short}/projects/${project}?choose=${id}`,
  }
}

/** Says for which contract alone it is made. */
export function ForContract() {
  const words = useWords()
  const lab = useLaboratory()
  const { projectId } = useContract()
  const query = useQuery({ ...projectQueries.one(lab.id, projectId ?? ''), enabled: projectId !== undefined })
  if (projectId === undefined) return null
  if (query.isError)
    return (
      <p className="caution prose" role="alert">
        {words('specifications.noSuchProject')}
      </p>
    )
  return (
    <p className="panel prose" role="note">
      {words('specifications.forContract')}{' '}
      <Link href={`/l/${lab.short}/projects/${projectId}`} prefetch={false}>
        {query.data?.name ?? words('specifications.theProject')}
      </Link>
    </p>
  )
}
