/** Keys closer than this come from a device that types, not from a person. Our own choice, no source. */
export const gapMs = 50
/** A person’s bounced key makes two; a weight or a code has more. Our own choice, no source. */
const fewest = 3

export type PressedKey = 'apart' | 'within' | { readonly burst: string }

/**
 * Tells what a balance or a scanner types from what a person does: keys one close behind the other, ended by Enter. Each
 * key is told with its time; `apart` is nobody's burst so far, `within` belongs to one that has begun.
 */
export function createKeyBurst(): (key: string, at: number) => PressedKey {
  let typed = ''
  let last = Number.NEGATIVE_INFINITY
  return (key, at) => {
    const close = at - last <= gapMs
    // Shift and the like come between the characters and are none.
    if (key.length !== 1 && key !== 'Enter') return close && typed.length > 1 ? 'within' : 'apart'
    last = at
    if (key === 'Enter') {
      const burst = close ? typed : ''
      typed = ''
      return burst.trim().length >= fewest ? { burst } : 'apart'
    }
    typed = close ? typed + key : key
    // Two letters one after the other are also a shortcut of ours.
    return typed.length > 2 || (close && !/^[a-z]$/i.test(key)) ? 'within' : 'apart'
  }
}
