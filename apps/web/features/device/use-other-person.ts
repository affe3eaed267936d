'use client'

import { useEffect } from 'react'
import { onOtherPerson } from '#lib/person-channel.ts'

/** This tab begins anew once somebody else has the browser: it would show, and store, as the person before. */
export function useOtherPerson(membershipId: string): void {
  useEffect(() => onOtherPerson(membershipId, () => window.location.reload()), [membershipId])
}
