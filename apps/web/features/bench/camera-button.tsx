'use client'

import { useEffect, useState } from 'react'
import { Button } from '#components/button.tsx'
import { useWords } from '#lib/words.ts'
import { fetchCamera, type Camera } from './fetch-camera.ts'

/** Scans by the camera, where this browser gives one to this address (https, or this machine itself); else nothing. */
export function CameraButton({
  wrong,
  onCode,
}: {
  wrong: string | undefined
  /** @returns whether it was a known one */
  onCode: (code: string) => Promise<boolean>
}) {
  const words = useWords()
  const [can, setCan] = useState(false)
  const [camera, setCamera] = useState<Camera | 'coming' | 'not-here'>()
  useEffect(() => setCan('mediaDevices' in navigator), [])
  if (!can) return null
  async function open() {
    setCamera('coming')
    setCamera(await fetchCamera().catch(() => 'not-here' as const))
  }
  return (
    <>
      <Button size="bench" busy={camera === 'coming'} onClick={() => void open()}>
        {words('bench.camera.scan')}
      </Button>
      <div role="alert">{camera === 'not-here' && <p className="caution">{words('bench.camera.notHere')}</p>}</div>
      {typeof camera === 'object' && (
        <camera.Dialog
          wrong={wrong}
          detect={camera.detect}
          onClose={() => setCamera(undefined)}
          onCode={async (code) => {
            const known = await onCode(code)
            if (known) setCamera(undefined)
            return known
          }}
        />
      )}
    </>
  )
}
