'use client'

import type { Design } from '@curebook/contract/designs'
import { Dialog } from '#components/dialog.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { draftFile } from './reports.queries.ts'
import { UnreleasedFile } from './unreleased-file.tsx'

/** The report as it would read, before the approval: all of it but number, signatures and check code. */
export function DraftReportDialog({ design, onClose }: { design: Design; onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  return (
    <Dialog title={words('reports.draft')} wide onClose={onClose}>
      <UnreleasedFile
        src={draftFile(lab.id, design.id)}
        mark={words('reports.draftMark')}
        about={words('reports.draftAbout')}
        title={words('reports.draftOf', { design: design.name, revision: design.revision })}
        open={words('reports.openDraft')}
      />
    </Dialog>
  )
}
