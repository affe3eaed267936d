import { useWords } from '#lib/words.ts'
import { actKey } from './acts.ts'

/** What was done, in words; as the ledger names it where there are none. */
export function Act({ action }: { action: string }) {
  const words = useWords()
  const key = actKey(action)
  return <>{key === undefined ? action : words(`ledger.act.${key}`)}</>
}
