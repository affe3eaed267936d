'use client'

import type { Design } from '@curebook/contract/designs'
import type { Method } from '@curebook/contract/methods'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { putInWindowOf } from '@curebook/trade/procedure/put-in'
import { useQuery } from '@tanstack/react-query'
import { ButtonLink } from '#components/button.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { designQueries } from './designs.queries.ts'

type Declared = Pick<MethodDeclaration, 'steps' | 'windows'>

/** From a planned series to the order in which it is cast, and to the put-in lists of the tests that soak before a machine. */
export function SeriesLinks({ design, methods }: { design: Design; methods: readonly Method[] }) {
  const words = useWords()
  const lab = useLaboratory()
  const { data } = useQuery(designQueries.specimens(lab.id, { id: design.id, revision: design.revision }))
  const planned = new Set(data?.items.map(({ methodKey }) => methodKey))
  const soaking = methods.filter(
    ({ key, steps, windows }) => planned.has(key) && putInWindowOf({ steps, windows } as Declared) !== null,
  )
  return (
    <div className="row no-print">
      <ButtonLink href={`/l/${lab.short}/bench/casting/${design.id}`} prefetch={false}>
        {words('designs.castingOrder')}
      </ButtonLink>
      {soaking.map(({ key, shortName }) => (
        <ButtonLink
          key={key}
          href={`/l/${lab.short}/bench/put-in?${new URLSearchParams({ designId: design.id, methodKey: key })}`}
          prefetch={false}
        >
          {words('designs.putInList', { test: shortName })}
        </ButtonLink>
      ))}
    </div>
  )
}
