'use client'

import type { MadeWallCode } from '@curebook/contract/wall'
import { Button } from '#components/button.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useWords } from '#lib/words.ts'
import styles from './wall-screens.module.css'

/** The code, this one time, with where to type it. */
export function MadeCode({ made: { code, screen }, onClose }: { made: MadeWallCode; onClose: () => void }) {
  const words = useWords()
  if (code === null) return <p>{words('wallScreens.alreadyMade', { name: screen.name })}</p>
  return (
    <div className="stack">
      <p>{words('wallScreens.typeIt', { address: `${window.location.origin}/wall` })}</p>
      <p className={`${styles.code} reading`}>{code}</p>
      <p className="quiet">
        {words('wallScreens.once')} {screen.codeUntil !== null && <TimeText at={screen.codeUntil} look="clock" />}
      </p>
      <div>
        <Button tone="main" onClick={onClose}>
          {words('wallScreens.typed')}
        </Button>
      </div>
    </div>
  )
}
