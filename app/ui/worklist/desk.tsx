'use client'

import { createContext, useContext } from 'react'
import type { StaffMember } from '@/lib/domain/staff.ts'
import type { WorklistRow } from '@/lib/domain/worklist.ts'

/** What the cells of a row need beside the row: the time, the clinic's zone, from when on a day is complete, who reads, and what can be done. */
export type Desk = {
  now: number
  clinicZone: string
  completeFrom: number
  staff: StaffMember
  /** The patient whose row is being taken or given back at this moment. */
  busy: string | null
  /** Whether keys act, and so are shown where they do. */
  keysOn: boolean
  take: (row: WorklistRow) => void
  release: (row: WorklistRow) => void
  overrule: (row: WorklistRow) => void
  call: (row: WorklistRow) => void
}

const DeskContext = createContext<Desk | null>(null)
export const DeskProvider = DeskContext.Provider

export function useDesk(): Desk {
  const desk = useContext(DeskContext)
  if (!desk) throw new Error('A row of the worklist stands outside of it.')
  return desk
}
