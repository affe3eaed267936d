/** Our own marks, drawn on a field of 16 × 16 with the colour of the text beside them. Always with a word. */
const shapes = {
  tick: <path d="M2.5 8.5 6.5 12.5 13.5 4" fill="none" strokeWidth="2.25" />,
  cross: <path d="M3.5 3.5 12.5 12.5M12.5 3.5 3.5 12.5" fill="none" strokeWidth="2.25" />,
  ring: <circle cx="8" cy="8" r="5.25" fill="none" strokeWidth="1.75" strokeDasharray="2.6 2.1" />,
  disc: <circle cx="8" cy="8" r="5.25" fill="currentColor" strokeWidth="1.5" />,
  half: (
    <>
      <circle cx="8" cy="8" r="5.25" fill="none" strokeWidth="1.5" />
      <path d="M8 2.75a5.25 5.25 0 0 1 0 10.5z" fill="currentColor" stroke="none" />
    </>
  ),
  warning: <path d="M8 2 14.5 13.5H1.5zM8 6.25v3.25M8 11.4v.4" fill="none" strokeWidth="1.6" />,
  clock: (
    <>
      <circle cx="8" cy="8" r="6" fill="none" strokeWidth="1.6" />
      <path d="M8 4.5V8l2.5 1.75" fill="none" strokeWidth="1.6" />
    </>
  ),
  bar: <path d="M3 8h10" fill="none" strokeWidth="2.5" />,
  bolt: <path d="M9.5 1.5 3.5 9H8l-1.5 5.5L12.5 7H8z" fill="currentColor" stroke="none" />,
  struck: (
    <>
      <circle cx="8" cy="8" r="5.75" fill="none" strokeWidth="1.6" />
      <path d="M4 12 12 4" fill="none" strokeWidth="1.6" />
    </>
  ),
  arrow: <path d="M2.5 8h10M9 4l4 4-4 4" fill="none" strokeWidth="1.8" />,
  up: <path d="M8 13V3.5M4 7.25 8 3l4 4.25" fill="none" strokeWidth="1.8" />,
  down: <path d="M8 3v9.5M4 8.75 8 13l4-4.25" fill="none" strokeWidth="1.8" />,
  sort: <path d="M4.5 6.5 8 3l3.5 3.5M4.5 9.5 8 13l3.5-3.5" fill="none" strokeWidth="1.6" />,
  cloud: <path d="M4.5 12.5a3 3 0 0 1 0-6 4 4 0 0 1 7.6 1.1 2.5 2.5 0 0 1-.6 4.9z" fill="none" strokeWidth="1.5" />,
  lines: <path d="M2.5 4h11M2.5 8h11M2.5 12h11" fill="none" strokeWidth="1.8" />,
  question: <path d="M5.5 6a2.5 2.5 0 1 1 3.6 2.2c-.8.4-1.1.9-1.1 1.8M8 12.6v.4" fill="none" strokeWidth="1.8" />,
} as const

export type IconName = keyof typeof shapes

export function Icon({ name, size = '1em' }: { name: IconName; size?: string }) {
  return (
    <svg
      viewBox="0 0 16 16"
      width={size}
      height={size}
      stroke="currentColor"
      strokeLinecap="round"
      strokeLinejoin="round"
      aria-hidden="true"
      focusable="false"
    >
      {shapes[name]}
    </svg>
  )
}
