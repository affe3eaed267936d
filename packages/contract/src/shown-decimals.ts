const ofUnit: Readonly<Record<string, number>> = { 'g/m²': 1, 'g/ft²': 2 }

/**
 * To how many decimals a mean of this unit is cut for the eye, on screens and in reports alike: a mass per area so that a tenth
 * of a gram weighed can be seen in either unit, all others to the second. Common practice, no source.
 */
export function shownDecimals(unit: string | null): number {
  return ofUnit[unit ?? ''] ?? 2
}

/** The same where fewer digits stand as they are; undefined then. */
export function cutTo(unit: string | null, digits: string): number | undefined {
  const most = shownDecimals(unit)
  return (digits.split('.')[1]?.length ?? 0) > most ? most : undefined
}
