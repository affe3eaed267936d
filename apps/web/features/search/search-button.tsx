'use client'

import { useEffect, useState } from 'react'
import { Button } from '#components/button.tsx'
import { lazyPart } from '#components/lazy-part.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'

// Comes when it is first opened: no screen pays for it before.
const SearchDialog = lazyPart(() => import('./search-dialog.tsx').then(({ SearchDialog: dialog }) => dialog))

/** Opens the search, by hand or with Ctrl or Cmd and K from wherever one is. */
export function SearchButton() {
  const words = useWords()
  const lab = useLaboratory()
  const [open, setOpen] = useState(false)
  const may = lab.may('search:read')
  useEffect(() => {
    if (!may) return
    const press = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || event.shiftKey || event.key.toLowerCase() !== 'k') return
      event.preventDefault()
      // A dialog is finished or left first: what is typed in it is not lost to a search.
      if (document.querySelector('[role="dialog"]') === null) setOpen(true)
    }
    window.addEventListener('keydown', press)
    return () => window.removeEventListener('keydown', press)
  }, [may])
  if (!may) return null
  return (
    <>
      <Button onClick={() => setOpen(true)} aria-keyshortcuts="Control+K Meta+K">
        {words('search.open')}
      </Button>
      {open && <SearchDialog onClose={() => setOpen(false)} />}
    </>
  )
}
