/** A span outside which one is asked to read again, in the unit of the value; nothing is refused by it. */
export type UsualSpan = { readonly from: string; readonly to: string; readonly source: string }

const source = 'common practice, no source'

/** Values of the materials that a design rests on: residue in % of the emulsion, moisture in % of dry aggregate. */
export const usualInputs = {
  residue: { from: '50', to: '72', source },
  'aggregate-moisture': { from: '0', to: '10', source },
} as const satisfies Readonly<Record<string, UsualSpan>>

/** Emulsion as it arrives, °C: colder it may have frozen, hotter it may have boiled. Common practice, no source. */
export const usualEmulsionTemperature: UsualSpan = { from: '5', to: '60', source }
