/** What is seen on a specimen or mix, in a word, as reports say it too. */
export const observationWords = {
  'edge-lifted': 'edge lifted',
  'felt-torn': 'felt torn',
  'light-casting': 'light casting',
  'heavy-casting': 'heavy casting',
  'broke-early': 'broke early',
  'stone-lost': 'stone lost',
  cracked: 'cracked',
  'plate-bent': 'plate bent',
  crept: 'crept on the plate',
  segregated: 'fines and liquid parted',
  other: 'other',
} as const
export type ObservationChoice = keyof typeof observationWords

/** What may be chosen for an item, by its form; `other` is said in words. */
export const observationsOfForm: Readonly<Record<string, readonly ObservationChoice[]>> = {
  disc: ['edge-lifted', 'felt-torn', 'light-casting', 'heavy-casting', 'broke-early', 'stone-lost', 'other'],
  strip: ['edge-lifted', 'cracked', 'plate-bent', 'crept', 'broke-early', 'stone-lost', 'other'],
  biscuit: ['light-casting', 'heavy-casting', 'broke-early', 'stone-lost', 'other'],
  pill: ['cracked', 'broke-early', 'stone-lost', 'other'],
  batch: ['broke-early', 'segregated', 'other'],
}

/** "edge lifted, on the left"; what is other is its own words. */
export function observationText({ choice, note }: { choice: ObservationChoice; note: string | null }): string {
  if (choice === 'other') return note ?? observationWords.other
  return note ? `${observationWords[choice]}, ${note}` : observationWords[choice]
}
