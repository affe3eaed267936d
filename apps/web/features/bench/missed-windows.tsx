'use client'

import type { TestView } from '@curebook/contract/bench'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { DecideDialog } from '#features/deviations/decide-dialog.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { topicsOfTest } from './bench.queries.ts'
import styles from './bench.module.css'

/** What went otherwise than the method asks. It stays in view; a manager or an engineer decides it here. */
export function MissedWindows({ view }: { view: TestView }) {
  const words = useWords()
  const lab = useLaboratory()
  const [deciding, setDeciding] = useState<TestView['deviations'][number]>()
  if (view.deviations.length === 0) return null
  return (
    <section aria-label={words('bench.deviations')} className="stack stack-tight">
      {view.deviations.map((deviation) => (
        <div key={deviation.id} className={`${deviation.decision === null ? styles.conflict : 'panel'} row`}>
          {deviation.waiting === null ? (
            <StatusMark status={deviation.decision === null ? 'open' : 'decided'} />
          ) : (
            <StatusMark status="waiting">{words('bench.waitsForRelease')}</StatusMark>
          )}
          <span style={{ flex: '1 1 16rem' }}>
            {deviation.text}
            {deviation.insideWord !== null && ` ${words('deviations.inside', { word: deviation.insideWord })}`}
            {deviation.waiting !== null && ` ${deviation.waiting.sentence}`}
          </span>
          {deviation.decision !== null && <span className="quiet">{deviation.decision}</span>}
          {deviation.decision === null &&
            (lab.may('deviation:decide') ? (
              <Button size="bench" onClick={() => setDeciding(deviation)}>
                {words('bench.decide')}
              </Button>
            ) : (
              <span className="quiet">{words('bench.whoDecides')}</span>
            ))}
        </div>
      ))}
      {deciding !== undefined && (
        <DecideDialog
          id={deciding.id}
          text={deciding.text}
          insideWord={deciding.insideWord}
          isOfTest={deciding.isOfTest}
          designs={deciding.designs}
          waiting={deciding.waiting}
          topics={topicsOfTest(view.id)}
          onClose={() => setDeciding(undefined)}
        />
      )}
    </section>
  )
}
