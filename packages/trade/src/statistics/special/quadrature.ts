// Numbers of this file: first guesses and ends of an iteration in doubles (IEEE 754), which bound no result.

/** A point and the weight of what the function is there. */
export type Node = { readonly at: number; readonly weight: number }

/**
 * Gauss–Legendre nodes over an interval cut into equal panels (NIST Digital Library of Mathematical Functions 3.5(v);
 * nodes by Newton's method on the Legendre polynomial, as in Press et al., Numerical Recipes, 3rd ed. 2007, section 4.6).
 */
export function gaussNodes(from: number, to: number, panels: number, points = 16): readonly Node[] {
  const unit = legendre(points)
  const half = (to - from) / panels / 2
  return Array.from({ length: panels }, (_, panel) => from + half * (2 * panel + 1)).flatMap((middle) =>
    unit.map(({ at, weight }) => ({ at: middle + half * at, weight: half * weight })),
  )
}

/**
 * Equal steps over the whole line: for smooth functions that fall off like the normal density on both sides the error falls
 * faster than any power of the step (NIST Digital Library of Mathematical Functions 3.5(i)).
 */
export function lineNodes(from: number, to: number, step: number): readonly Node[] {
  const count = Math.floor((to - from) / step) + 1
  return Array.from({ length: count }, (_, index) => ({ at: from + index * step, weight: step }))
}

function legendre(points: number): readonly Node[] {
  return Array.from({ length: points }, (_, index) => {
    let at = Math.cos((Math.PI * (index + 0.75)) / (points + 0.5))
    let slope = 1
    for (let turn = 0; turn < 100; turn += 1) {
      let [value, before] = [1, 0]
      for (let order = 0; order < points; order += 1)
        [value, before] = [((2 * order + 1) * at * value - order * before) / (order + 1), value]
      slope = (points * (at * value - before)) / (at * at - 1)
      const correction = value / slope
      at -= correction
      if (Math.abs(correction) < 1e-15) break
    }
    return { at, weight: 2 / ((1 - at * at) * slope * slope) }
  })
}
