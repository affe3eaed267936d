/** A field as its form names it: the row that it stands in, where there are many, and the label above it. */
export type FieldName = { readonly path: string; readonly part: string | undefined; readonly label: string | undefined }

/** What the contract says of any number; beside its field that is enough. */
const ofAnyNumber = /^A number, like/

/** The sentence of a field as it can be understood away from it; `namesNothing` where it would fit any field. */
export function toldAlone(message: string, field: FieldName | undefined, namesNothing = false): string {
  const names = [field?.part, namesNothing || ofAnyNumber.test(message) ? field?.label : undefined].filter(Boolean)
  return names.length === 0 ? message : `${names.join(', ')}: ${message}`
}
