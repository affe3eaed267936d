type Draft = Readonly<Record<string, string>>
type Kept = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>

/** The day, the common time and a row's time say when something was read; by themselves they are nothing to be kept. */
const isTime = (name: string) => name === 'day' || name === 'clock' || name.endsWith('/clock')

/** What one person typed on a sheet and did not store yet: another person at this device has boxes of their own. */
export function openSheetDraft(storage: Kept, memberId: string, sheet: string) {
  const storedAs = `curebook-sheet-${memberId}-${sheet}`
  const before = readDraft(storage.getItem(storedAs))
  return {
    typed: (name: string) => before[name] ?? '',
    keep: (form: FormData) => {
      const typed = [...form].filter((pair): pair is [string, string] => typeof pair[1] === 'string' && pair[1] !== '')
      storage.setItem(storedAs, JSON.stringify(Object.fromEntries(typed)))
    },
    /** Stored now: not typed again after a reload. With the last box goes its day, so that the next sheet gets its own. */
    drop: (names: readonly string[]) => {
      const kept = Object.entries(readDraft(storage.getItem(storedAs))).filter(([name]) => !names.includes(name))
      if (kept.every(([name]) => isTime(name))) storage.removeItem(storedAs)
      else storage.setItem(storedAs, JSON.stringify(Object.fromEntries(kept)))
    },
  }
}

function readDraft(stored: string | null): Draft {
  try {
    return JSON.parse(stored ?? '{}') as Draft
  } catch {
    return {}
  }
}
