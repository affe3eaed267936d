import type { Label } from '@curebook/contract/labels'
import { CodeSquare } from '#components/code-square.tsx'
import type { LabelSize } from './label-sizes.ts'
import styles from './labels.module.css'

/** One label in its true size: the code large, for eye and camera, and what is inside. */
export function LabelFace({ label, size }: { label: Label; size: LabelSize }) {
  return (
    <div className={styles.face} style={{ inlineSize: `${size.width}mm`, blockSize: `${size.height}mm` }}>
      <div className={styles.square}>
        <CodeSquare square={label.square} label={label.code} />
      </div>
      <div className={styles.text}>
        <strong className={styles.code}>{label.code}</strong>
        {label.lines.map((line) => (
          <span key={line}>{line}</span>
        ))}
        <span>{label.laboratory}</span>
      </div>
    </div>
  )
}
