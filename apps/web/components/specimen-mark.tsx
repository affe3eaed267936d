import styles from './specimen-mark.module.css'

export type SpecimenForm = 'batch' | 'disc' | 'strip' | 'biscuit' | 'pill' | 'cup' | 'ring' | 'loose'

/** The forms as they lie on the bench, seen from above. */
const shapes: Record<SpecimenForm, React.ReactNode> = {
  batch: (
    <>
      <path d="M2.5 7.5h19c-.6 7-4 10.5-9.5 10.5S3.1 14.5 2.5 7.500z" fill="none" strokeWidth="2" />
      <path d="M6.5 11c3 1.6 8 1.6 11 0" fill="none" strokeWidth="1.5" />
    </>
  ),
  disc: (
    <>
      <circle cx="12" cy="12" r="9.5" fill="none" strokeWidth="2" />
      <circle cx="12" cy="12" r="5.6" fill="none" strokeWidth="1.5" strokeDasharray="3 1.6" />
      <circle cx="12" cy="12" r="1.4" fill="currentColor" stroke="none" />
    </>
  ),
  strip: (
    <>
      <rect x="1.5" y="7.5" width="21" height="9" rx="1.5" fill="none" strokeWidth="2" />
      <path d="M5.5 12h13" strokeWidth="2.5" strokeDasharray="0.1 3.15" fill="none" />
    </>
  ),
  biscuit: <circle cx="12" cy="12" r="7" fill="none" strokeWidth="4" />,
  cup: (
    <>
      <path d="M5 5h14l-2 14H7z" fill="none" strokeWidth="2" />
      <path d="M6 10h12" fill="none" strokeWidth="1.5" />
    </>
  ),
  ring: (
    <>
      <circle cx="12" cy="12" r="9" fill="none" strokeWidth="3" />
      <circle cx="12" cy="12" r="3" fill="none" strokeWidth="1.5" />
    </>
  ),
  loose: (
    <>
      <circle cx="7" cy="15" r="3.5" fill="none" strokeWidth="2" />
      <circle cx="16" cy="16" r="3" fill="none" strokeWidth="2" />
      <circle cx="12" cy="8" r="3" fill="none" strokeWidth="2" />
    </>
  ),
  pill: <rect x="6" y="6" width="12" height="12" rx="4.5" fill="none" strokeWidth="2.25" />,
}

/**
 * A specimen, everywhere the same: its form drawn small and its short code. `label` is its place in the design ("10-3"),
 * shown after it; `form` in words comes from the catalogue and is read out.
 */
export function SpecimenMark({
  form,
  code,
  formWord,
  voided = false,
  size = 'desk',
}: {
  form: SpecimenForm
  code: string
  formWord?: string
  voided?: boolean
  size?: 'desk' | 'bench'
}) {
  return (
    <span className={`${styles.mark} ${size === 'bench' ? styles.bench : ''} ${voided ? styles.void : ''}`}>
      <svg
        viewBox="0 0 24 24"
        width="1.25em"
        height="1.25em"
        stroke="currentColor"
        strokeLinecap="round"
        strokeLinejoin="round"
        aria-hidden="true"
        focusable="false"
      >
        {shapes[form]}
      </svg>
      {formWord !== undefined && <span className="sr-only">{formWord} </span>}
      {code}
    </span>
  )
}
