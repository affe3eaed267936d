'use client'

import { useEffect, useRef, useState } from 'react'
import { Dialog } from '#components/dialog.tsx'
import type { CodeDetector } from '#lib/camera/code-detector.ts'
import { readCodes } from '#lib/camera/read-codes.ts'
import { useWords } from '#lib/words.ts'
import styles from './camera-dialog.module.css'

/** The picture of the camera; the first known code in it is taken. The camera is on while this is open and no longer. */
export function CameraDialog({
  wrong,
  detect,
  onCode,
  onClose,
}: {
  /** Why the code seen last was not taken. */
  wrong: string | undefined
  detect: CodeDetector
  /** @returns whether it was a known one */
  onCode: (code: string) => Promise<boolean>
  onClose: () => void
}) {
  const words = useWords()
  return (
    <Dialog title={words('bench.camera.title')} onClose={onClose}>
      <div className="stack">
        <p className="quiet">{words('bench.camera.about')}</p>
        <Picture detect={detect} onCode={onCode} />
        <div role="alert">{wrong !== undefined && <p className="caution">{wrong}</p>}</div>
      </div>
    </Dialog>
  )
}

/** Stands inside of the dialog, so that it begins when there is a place for the picture: a dialog comes a moment later. */
function Picture({ detect, onCode }: { detect: CodeDetector; onCode: (code: string) => Promise<boolean> }) {
  const words = useWords()
  const [fault, setFault] = useState<'refused' | 'none'>()
  const video = useRef<HTMLVideoElement>(null)
  const latest = useRef({ onCode, detect })
  useEffect(() => {
    latest.current = { onCode, detect }
  })
  useEffect(() => {
    const putAway = new AbortController()
    let stream: MediaStream | undefined
    const stop = () => {
      for (const track of stream?.getTracks() ?? []) track.stop()
    }
    async function look() {
      stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: 'environment' }, audio: false })
      const picture = video.current
      if (putAway.signal.aborted || picture === null) return stop()
      picture.srcObject = stream
      await picture.play()
      await readCodes({
        look: () => latest.current.detect(picture),
        take: (code) => latest.current.onCode(code),
        wait: (ms) => new Promise((resolve) => setTimeout(resolve, ms)),
        signal: putAway.signal,
      })
    }
    look().catch((cause: unknown) => {
      stop()
      if (putAway.signal.aborted) return
      setFault(cause instanceof Error && cause.name === 'NotAllowedError' ? 'refused' : 'none')
    })
    return () => {
      putAway.abort()
      stop()
    }
  }, [])
  if (fault !== undefined)
    return (
      <p className="caution" role="alert">
        {words(`bench.camera.${fault}`)}
      </p>
    )
  return <video ref={video} className={styles.picture} aria-label={words('bench.camera.picture')} muted playsInline />
}
