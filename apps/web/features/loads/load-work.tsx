'use client'

import type { Load, Ovens, StandingSpecimen } from '@curebook/contract/loads'
import { PutInDialog } from './put-in-dialog.tsx'
import { ReadLoadDialog, type Corrected } from './read-load-dialog.tsx'
import { TakeOutDialog } from './take-out-dialog.tsx'

/** What is being done in a dialog, with the oven or load as it was when the dialog opened. */
export type LoadWork =
  | { readonly what: 'in'; readonly instrument: Ovens['instruments'][number]; readonly waiting: Ovens['waiting'] }
  | ({ readonly load: Load; readonly name: string } & (
      | { readonly what: 'out'; readonly specimens: readonly StandingSpecimen[]; readonly onDone: () => void }
      | { readonly what: 'temperature' | 'warm-mass'; readonly corrects?: Corrected }
    ))

/**
 * The dialog of that work. Whoever shows the whole screen holds it: the load itself leaves the list as soon as anybody has
 * emptied it, and what was typed, or the answer, must not go with it.
 */
export function LoadWorkDialog({
  work,
  readers,
  onClose,
}: {
  work: LoadWork
  readers: Ovens['readers']
  onClose: () => void
}) {
  if (work.what === 'in')
    return <PutInDialog instrument={work.instrument} waiting={work.waiting} readers={readers} onClose={onClose} />
  if (work.what === 'out')
    return (
      <TakeOutDialog
        load={work.load}
        name={work.name}
        specimens={work.specimens}
        readers={readers}
        onClose={onClose}
        onDone={work.onDone}
      />
    )
  return (
    <ReadLoadDialog
      load={work.load}
      name={work.name}
      what={work.what}
      corrects={work.corrects}
      readers={readers}
      onClose={onClose}
    />
  )
}
