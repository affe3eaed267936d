import localFont from 'next/font/local'

/** Reading text. Open shapes, told apart at arm's length. */
export const textFont = localFont({
  src: '../../../node_modules/@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-wght-normal.woff2',
  weight: '200 800',
  variable: '--font-text',
  display: 'swap',
  adjustFontFallback: false,
})

/** Readings and digits: every figure as wide as the next, 0 unlike O. */
export const readingFont = localFont({
  src: '../../../node_modules/@fontsource-variable/atkinson-hyperlegible-mono/files/atkinson-hyperlegible-mono-latin-wght-normal.woff2',
  weight: '200 800',
  variable: '--font-reading',
  display: 'swap',
  adjustFontFallback: false,
  preload: false,
})

/** The signs that both lack (≥ ≤ µ √ Σ σ →). */
export const signsFont = localFont({
  src: '../fonts/curebook-signs.ttf',
  variable: '--font-signs',
  display: 'swap',
  adjustFontFallback: false,
  preload: false,
})
