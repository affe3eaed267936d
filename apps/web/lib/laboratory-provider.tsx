'use client'

import type { LaboratoryView } from '@curebook/contract/laboratory'
import type { Role } from '@curebook/contract/common'
import { createContext, useContext, useEffect, useMemo, useState, type ReactNode } from 'react'
import { LaboratoryStyleContext } from './laboratory-format.ts'

export type Laboratory = {
  readonly id: string
  /** Stands in the address of every page: `/l/<short>/…`. */
  readonly short: string
  readonly name: string
  readonly zone: string
  readonly settings: LaboratoryView
  readonly me: LaboratoryView['me']
  /** The role that the person acts in on screen; what they may do is the sum of all their roles. */
  readonly role: Role
  readonly setRole: (role: Role) => void
  /** Whether the signed-in person may do this, by the action's name (`people:invite`). */
  readonly may: (action: string) => boolean
}

const LaboratoryContext = createContext<Laboratory | undefined>(undefined)

export function useLaboratory(): Laboratory {
  const laboratory = useContext(LaboratoryContext)
  if (laboratory === undefined) throw new Error('useLaboratory needs a LaboratoryProvider around it')
  return laboratory
}

export function LaboratoryProvider({ view, children }: { view: LaboratoryView; children: ReactNode }) {
  const storedAs = `curebook-role-${view.me.membershipId}`
  const [chosen, setChosen] = useState<string | null>(null)
  useEffect(() => setChosen(localStorage.getItem(storedAs)), [storedAs])
  const laboratory = useMemo<Laboratory>(() => {
    const actions = new Set(view.actions)
    return {
      id: view.id,
      short: view.shortName,
      name: view.name,
      zone: view.zone,
      settings: view,
      me: view.me,
      role: roleInUse(view.me.roles, chosen),
      setRole: (role) => {
        localStorage.setItem(storedAs, role)
        setChosen(role)
      },
      may: (action) => actions.has(action),
    }
  }, [view, chosen, storedAs])
  const style = useMemo(
    () => ({
      zone: view.zone,
      decimalSign: view.decimalSign === 'comma' ? (',' as const) : ('.' as const),
      language: view.language,
    }),
    [view.zone, view.decimalSign, view.language],
  )
  return (
    <LaboratoryStyleContext.Provider value={style}>
      <LaboratoryContext.Provider value={laboratory}>{children}</LaboratoryContext.Provider>
    </LaboratoryStyleContext.Provider>
  )
}

/** The role chosen on this device, else the first that a person holds. */
export function roleInUse(roles: readonly Role[], chosen: string | null): Role {
  return roles.find((role) => role === chosen) ?? roles[0] ?? 'auditor'
}
