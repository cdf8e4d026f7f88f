'use client'

import type { RefObject } from 'react'
import { may, type StaffMember } from '@/lib/domain/staff.ts'
import type { Urgency } from '@/lib/domain/words.ts'
import type { WorklistRow } from '@/lib/domain/worklist.ts'
import { type KeyAction, nextOf, stepFrom } from './keymap.ts'
import type { TableHandle } from './rows-table.tsx'
import { useKeys } from './use-keys.ts'

type Ask = {
  on: boolean
  staff: StaffMember
  rooms: {
    room: RefObject<HTMLElement | null>
    find: RefObject<HTMLInputElement | null>
    table: RefObject<TableHandle | null>
  }
  /** The rows in the order of the screen, drawn or not. */
  rowIds: readonly string[]
  live: ReadonlyMap<string, WorklistRow>
  focusedId: string | null
  does: {
    open: (patientId: string) => void
    take: (row: WorklistRow) => void
    giveBack: (row: WorklistRow) => void
    call: (row: WorklistRow) => void
    firstFree: () => void
    showNew: () => void
    upkeep: () => void
    all: () => void
    urgency: (urgency: Urgency) => void
  }
}

/** What each key does to the row that has the focus, or to the list. */
export function useRowKeys({ on, staff, rooms: { room, find, table }, rowIds, live, focusedId, does }: Ask) {
  const focusRow = (id: string) =>
    table.current?.reveal(id, (line) => {
      line.querySelector<HTMLElement>('[data-row-link]')?.focus({ preventScroll: true })
      line.scrollIntoView({ block: 'nearest' })
    })
  /** Patients who are found without a row: the arrows go on to them. */
  const others = () => [...(room.current?.querySelectorAll<HTMLElement>('[data-other]') ?? [])]
  const focusOne = (id: string | null): boolean => {
    if (id === null) return false
    const other = others().find(({ dataset }) => dataset.other === id)
    if (other) other.querySelector<HTMLElement>('[data-row-link]')?.focus()
    else focusRow(id)
    return true
  }
  const doing = (work: () => void): true => {
    work()
    return true
  }
  const act = (action: KeyAction): boolean => {
    const from = document.activeElement
    const at = from?.closest<HTMLElement>('[data-row], [data-other]')
    const here = at?.dataset.row ?? at?.dataset.other ?? null
    const row = here === null ? undefined : live.get(here)
    const mayTake = may(staff.role, 'take-row')
    const isOwn = row?.hold?.staffId === staff.id
    switch (action) {
      case 'down':
      case 'up': {
        const all = [...rowIds, ...others().map(({ dataset }) => dataset.other ?? '')]
        const start = here ?? (from === find.current ? null : focusedId)
        return focusOne(stepFrom(all, start, action === 'down' ? 1 : -1))
      }
      case 'next-at-once':
        return focusOne(nextOf(rowIds, here ?? focusedId, (id) => live.get(id)?.urgency === 'at-once'))
      case 'open':
        return here !== null && doing(() => does.open(here))
      case 'take':
        // Also where it is somebody's: the answer says whose.
        return row !== undefined && !isOwn && mayTake && doing(() => does.take(row))
      case 'give-back':
        return row !== undefined && isOwn && doing(() => does.giveBack(row))
      case 'call':
        return row !== undefined && isOwn && doing(() => does.call(row))
      case 'first-free':
        return mayTake && doing(does.firstFree)
      case 'show-new':
        return doing(does.showNew)
      case 'find':
        return doing(() => {
          find.current?.focus()
          find.current?.select()
        })
      case 'upkeep':
        return doing(does.upkeep)
      case 'all':
        return doing(does.all)
      default:
        return doing(() => does.urgency(action))
    }
  }
  useKeys({ on, act, isFind: (target) => target === find.current })
  return { focusRow }
}
