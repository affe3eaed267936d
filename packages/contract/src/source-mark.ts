/** Where a number comes from and how sure that is; a source that says so itself is not told twice. */
export function sourceMark({ source, certainty }: { readonly source: string; readonly certainty: string }): string {
  return source.includes(certainty) ? source : `${source}, ${certainty}`
}
