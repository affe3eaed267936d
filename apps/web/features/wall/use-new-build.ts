'use client'

import { useEffect, useRef } from 'react'

/** Loads the page anew when the server was brought up to date: nobody stands before a wall to do it. */
export function useNewBuild(build: string): void {
  const first = useRef(build)
  useEffect(() => {
    if (build !== first.current) window.location.reload()
  }, [build])
}
