import type { CodeSquare as Square } from '@curebook/contract/session'

const quiet = 4

/** A square for a camera, dark on light in every theme, with the quiet margin that a camera needs. */
export function CodeSquare({ square: { size, path }, label }: { square: Square; label: string }) {
  const side = size + 2 * quiet
  return (
    <svg
      role="img"
      aria-label={label}
      viewBox={`${-quiet} ${-quiet} ${side} ${side}`}
      shapeRendering="crispEdges"
      style={{ inlineSize: '14rem', maxInlineSize: '100%', blockSize: 'auto' }}
    >
      <rect x={-quiet} y={-quiet} width={side} height={side} fill="#fff" />
      <path d={path} fill="#000" />
    </svg>
  )
}
