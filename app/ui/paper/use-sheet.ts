import { useEffect, useState } from 'react'
import { newKey } from '@/lib/client/new-key.ts'
import {
  emptyRow,
  isEmptyRow,
  PAPER_MAX_ROWS,
  type PaperAnswers,
  type PaperSheet,
} from '@/lib/domain/paper-sheet.ts'

/** A sheet as it is being written: each row keeps its id, so that what is typed stays with its row. */
export type SheetRow = { id: number; cells: string[] }
export type Sheet = {
  /** Made once for the sheet: what is sent twice is stored once. */
  key: string
  rows: SheetRow[]
  by: PaperSheet['by']
  answers: PaperAnswers
}

const PREFIX = 'paper-draft:'
/** Raised when the sheet changes, so that what an older page left is not read as it is now. */
const FORM = 1
const nameOf = (staffId: string, patientId: string) => `${PREFIX}${FORM}:${staffId}:${patientId}`
const START_ROWS = 4

let lastId = 0
export const sheetRow = (cells: string[] = emptyRow()): SheetRow => ({ id: ++lastId, cells })

export const newSheet = (): Sheet => ({
  key: newKey(),
  rows: Array.from({ length: START_ROWS }, () => sheetRow()),
  by: 'day',
  answers: { volumeUnit: null, temperatureUnit: null, dateOrder: null },
})

function kept(name: string): Sheet | null {
  try {
    const sheet = JSON.parse(window.sessionStorage.getItem(name) ?? 'null') as Sheet | null
    return sheet && { ...sheet, rows: sheet.rows.map(({ cells }) => sheetRow(cells)) }
  } catch {
    return null
  }
}

/** What a colleague left in this tab goes. */
function forgetOthers(staffId: string): void {
  for (const name of Object.keys(window.sessionStorage))
    if (name.startsWith(PREFIX) && !name.startsWith(`${PREFIX}${FORM}:${staffId}:`))
      window.sessionStorage.removeItem(name)
}

/** The sheet of a patient, kept in the tab with each change: a reload or an error loses nothing. */
export function useSheet(staffId: string, patientId: string) {
  const name = nameOf(staffId, patientId)
  const [sheet, setSheet] = useState<Sheet>(newSheet)
  const [isRead, setRead] = useState(false)
  useEffect(() => {
    forgetOthers(staffId)
    const before = kept(name)
    if (before) setSheet(before)
    setRead(true)
  }, [name, staffId])
  useEffect(() => {
    if (!isRead) return
    if (sheet.rows.every(({ cells }) => isEmptyRow(cells))) window.sessionStorage.removeItem(name)
    else window.sessionStorage.setItem(name, JSON.stringify(sheet))
  }, [isRead, name, sheet])
  return { sheet, setSheet, isRead }
}

/** The sheet with pasted rows in place of what is empty; null where it would be longer than one sheet may be. */
export function withPasted(sheet: Sheet, rows: readonly string[][]): Sheet | null {
  const before = sheet.rows.filter(({ cells }) => !isEmptyRow(cells))
  if (before.length + rows.length > PAPER_MAX_ROWS) return null
  return { ...sheet, rows: [...before, ...rows.map((cells) => sheetRow(cells)), sheetRow()] }
}
