type Kept = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>

/** What one person typed into a field and did not store yet: another person at this device finds the field empty. */
export function openReadingDraft(storage: () => Kept, memberId: string, field: string) {
  const storedAs = `curebook-draft-${memberId}-${field}`
  return {
    typed: () => storage().getItem(storedAs) ?? '',
    keep: (text: string) => {
      if (text === '') storage().removeItem(storedAs)
      else storage().setItem(storedAs, text)
    },
  }
}
