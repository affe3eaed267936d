'use client'

import { StatusMark } from '#components/status-mark.tsx'
import styles from './reports.module.css'

/**
 * A file that is not released, within a frame that says so: the file itself carries no mark, as it is the one that goes
 * out. Where the browser shows no PDF within a page, the link opens it.
 */
export function UnreleasedFile({
  src,
  mark,
  about,
  title,
  open,
}: {
  src: string
  mark: string
  about: string
  /** Name of the frame, for reading aloud. */
  title: string
  open: string
}) {
  return (
    <figure className={styles.unreleased} aria-label={title}>
      <figcaption className="stack stack-tight">
        <div className="row">
          <StatusMark status="draft">{mark}</StatusMark>
          <a href={src} target="_blank" rel="noopener">
            {open}
          </a>
        </div>
        <p className="small">{about}</p>
      </figcaption>
      {navigator.pdfViewerEnabled && (
        <div className={styles.sheet} data-mark={mark}>
          <iframe src={src} title={title} />
        </div>
      )}
    </figure>
  )
}
