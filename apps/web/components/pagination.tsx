'use client'

import { useSearchParam } from '#lib/search-param.ts'
import { useWords } from '#lib/words.ts'
import { Button } from './button.tsx'

/** Pages by cursor, in the address (`?cursor=…`): to the first page, to the next one; Back goes to the previous. */
export function Pagination({ next, param = 'cursor' }: { next: string | null; param?: string }) {
  const words = useWords()
  const [cursor, setCursor] = useSearchParam(param)
  if (next === null && cursor === '') return null
  return (
    <nav className="row" aria-label={words('common.pages')}>
      {cursor !== '' && <Button onClick={() => setCursor('', { push: true })}>{words('common.firstPage')}</Button>}
      {next !== null && <Button onClick={() => setCursor(next, { push: true })}>{words('common.nextPage')}</Button>}
      {next === null && <span className="quiet">{words('common.lastPage')}</span>}
    </nav>
  )
}
