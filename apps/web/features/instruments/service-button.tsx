'use client'

import type { Instrument } from '@curebook/contract/instruments'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { latestCalibration } from './instrument-facts.ts'
import { useUpdateInstrument } from './instruments.queries.ts'

/** Takes an instrument out of service or brings it back. What was read with it keeps its name. */
export function ServiceButton({ instrument }: { instrument: Instrument }) {
  const words = useWords()
  const [asked, setAsked] = useState(false)
  const out = instrument.state === 'out'
  // A failed calibration is put right by the next one, not by a button.
  if (out && latestCalibration(instrument.calibrations)?.passed === false) return null
  return (
    <>
      <Button onClick={() => setAsked(true)}>{words(out ? 'instruments.bringBack' : 'instruments.takeOut')}</Button>
      {asked && <ServiceDialog instrument={instrument} out={out} onClose={() => setAsked(false)} />}
    </>
  )
}

function ServiceDialog({ instrument, out, onClose }: { instrument: Instrument; out: boolean; onClose: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const confirm = useConfirmation()
  const update = useUpdateInstrument(lab.id, instrument)
  const { code } = instrument
  return (
    <Dialog title={words(out ? 'instruments.bringBackOf' : 'instruments.takeOutOf', { code })} onClose={onClose}>
      <div className="stack" data-form>
        <FormErrors errors={fieldErrors(update.error)} />
        <p>{words(out ? 'instruments.bringBackAbout' : 'instruments.takeOutAbout', { code })}</p>
        <div className="row">
          <Button onClick={onClose}>{words('instruments.leave')}</Button>
          <Button
            tone={out ? 'main' : 'danger'}
            busy={update.isPending}
            onClick={() =>
              update.mutate(
                { state: out ? 'in-service' : 'out' },
                {
                  onSuccess: () => {
                    confirm(words(out ? 'instruments.broughtBack' : 'instruments.takenOut', { code }))
                    onClose()
                  },
                },
              )
            }
          >
            {words(out ? 'instruments.bringBackOf' : 'instruments.takeOutOf', { code })}
          </Button>
        </div>
      </div>
    </Dialog>
  )
}
