import type { TrialCup } from '@curebook/contract/trials'
import { type CupDraft, isStoredAs } from './cup-draft.ts'

/** A stored cup that is open to be completed or corrected, with what was typed into it. */
export type Edit = { readonly cup: TrialCup; readonly draft: CupDraft; readonly reason: string }

export function isEdited({ cup, draft }: Edit): boolean {
  return !isStoredAs(cup, draft)
}

/**
 * The edits once the list shows a cup under an edit's own id: it was stored, and its answer was lost. Just as it stands the
 * edit is over; typed further meanwhile, it goes on as an edit of the cup that stands now. The same array where nothing is so.
 */
export function settledEdits(edits: readonly Edit[], cups: readonly TrialCup[], makeId: () => string): readonly Edit[] {
  const standingOf = ({ draft }: Edit) => cups.find(({ id }) => id === draft.id)
  if (!edits.some((edit) => standingOf(edit) !== undefined)) return edits
  return edits.flatMap((edit) => {
    const standing = standingOf(edit)
    if (standing === undefined) return [edit]
    if (isStoredAs(standing, edit.draft)) return []
    return [{ ...edit, cup: standing, draft: { ...edit.draft, id: makeId() } }]
  })
}
