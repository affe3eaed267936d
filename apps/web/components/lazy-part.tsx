'use client'

import { useEffect, useState, type ComponentType } from 'react'
import { MissingPart } from './missing-part.tsx'

/**
 * A part of a screen that is fetched when it is first shown. Where it is not on this device and cannot be fetched, it says so
 * with a button to try again, and the rest of the screen stays as it is. A part with `onClose` can be left as well.
 * `quiet`: nothing is said, for what nobody asked for.
 */
export function lazyPart<Props extends object>(
  load: () => Promise<ComponentType<Props>>,
  { quiet = false }: { readonly quiet?: boolean } = {},
): ComponentType<Props> {
  let loaded: ComponentType<Props> | undefined
  return function LazyPart(props: Props) {
    const [Part, setPart] = useState(() => loaded)
    const [tries, setTries] = useState(0)
    const [missing, setMissing] = useState(false)
    useEffect(() => {
      if (Part !== undefined) return undefined
      let left = false
      load().then(
        (part) => {
          loaded = part
          if (!left) setPart(() => part)
        },
        () => {
          if (!left) setMissing(true)
        },
      )
      return () => void (left = true)
    }, [Part, tries])
    if (Part !== undefined) return <Part {...props} />
    if (!missing || quiet) return null
    const { onClose } = props as { readonly onClose?: () => void }
    return (
      <MissingPart
        onRetry={() => {
          setMissing(false)
          setTries(tries + 1)
        }}
        onClose={onClose}
      />
    )
  }
}
