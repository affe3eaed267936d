'use client'

import type { WallScreen } from '@curebook/contract/wall'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { newId } from '#lib/new-id.ts'
import { useWords } from '#lib/words.ts'
import { MadeCode } from './made-code.tsx'
import { useMakeWallCode } from './wall-screens.queries.ts'

/** Another code for a screen: the first ran out, or another browser hangs there now. */
export function CodeDialog({ screen, onClose }: { screen: WallScreen; onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const make = useMakeWallCode(lab.id, screen.id)
  const [id] = useState(newId)
  return (
    <Dialog title={words('wallScreens.codeOf', { name: screen.name })} onClose={onClose}>
      {make.data === undefined ? (
        <div className="stack" data-form>
          <FormErrors errors={fieldErrors(make.error)} />
          <p>{words('wallScreens.codeAbout')}</p>
          <div className="row">
            <Button tone="main" busy={make.isPending} onClick={() => make.mutate({ id })}>
              {words('wallScreens.makeCode')}
            </Button>
            <SaveState saving={savingOf(make)} />
          </div>
        </div>
      ) : (
        <MadeCode made={make.data} onClose={onClose} />
      )}
    </Dialog>
  )
}
