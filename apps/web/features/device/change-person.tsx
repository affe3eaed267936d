'use client'

import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { lazyPart } from '#components/lazy-part.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'

const ChangePersonDialog = lazyPart(() =>
  import('./change-person-dialog.tsx').then(({ ChangePersonDialog: dialog }) => dialog),
)

/** On every page of a laboratory: another person takes the tablet, in three taps. */
export function ChangePerson() {
  const words = useWords()
  const lab = useLaboratory()
  const [open, setOpen] = useState(false)
  if (!lab.may('device:switch')) return null
  return (
    <>
      <Button onClick={() => setOpen(true)}>{words('device.change')}</Button>
      {open && <ChangePersonDialog onClose={() => setOpen(false)} />}
    </>
  )
}
