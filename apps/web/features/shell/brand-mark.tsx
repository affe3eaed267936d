/** Our mark: a specimen seen from above, scrubbed ring and all, lying on an open page. */
export function BrandMark({ size = 32 }: { size?: number }) {
  return (
    <svg
      viewBox="0 0 32 32"
      width={size}
      height={size}
      aria-hidden="true"
      focusable="false"
      fill="none"
      stroke="currentColor"
      strokeLinecap="round"
      strokeLinejoin="round"
    >
      <path d="M3 25.5c4-2 9-2 13 .5 4-2.5 9-2.5 13-.5V8" strokeWidth="2" />
      <path d="M3 25.500V8" strokeWidth="2" />
      <circle cx="16" cy="12" r="8.5" strokeWidth="2.25" />
      <circle cx="16" cy="12" r="4.75" strokeWidth="1.5" strokeDasharray="2.8 1.5" />
      <circle cx="16" cy="12" r="1.25" fill="currentColor" stroke="none" />
    </svg>
  )
}
