'use client'

import type { PanelResult } from '@curebook/contract/panel-results'
import { panelResultWords } from '@curebook/contract/panel-result-words'
import { DayText } from '#components/time-text.tsx'
import { AttachmentLink } from '#features/attachments/attachment-link.tsx'
import { useWords } from '#lib/words.ts'
import styles from './range.module.css'

/** Below the value of a property that was entered: how it was found, what it replaced, its file. */
export function EnteredValue({ result }: { result: PanelResult }) {
  const words = useWords()
  return (
    <div className={styles.found}>
      <p className="small strong">{words('range.enteredMark')}</p>
      <p className="small">
        {panelResultWords({ ...result, attachment: null })}, {words('range.foundOn')}{' '}
        <DayText day={result.observedOn} />. {words('range.enteredBy', { name: result.by.name })}
      </p>
      {result.supersedes !== null && (
        <p className="small">
          {words('range.replacedValue', {
            value: `${result.supersedes.typed} ${result.supersedes.unit}`,
            reason: result.supersedes.reason,
          })}
        </p>
      )}
      {result.attachment !== null && <AttachmentLink file={result.attachment} />}
    </div>
  )
}
