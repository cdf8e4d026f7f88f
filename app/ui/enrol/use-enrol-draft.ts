import { useEffect, useState } from 'react'
import { type EnrolDraft, newEnrolment, type Start } from './draft.ts'

const PREFIX = 'enrol-draft:'
/** Raised when the form changes, so that what an older page left is not read as it is now. */
const FORM = 1

/** Under the member of staff and the discharge: the next at this computer sees nothing of it. */
const nameOf = (staffId: string, discharge: string | null) => `${PREFIX}${FORM}:${staffId}:${discharge ?? ''}`

function kept(name: string): EnrolDraft | null {
  try {
    return JSON.parse(window.sessionStorage.getItem(name) ?? 'null') as EnrolDraft | null
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

/** The form, kept in the tab with each change: a reload or an error loses nothing. */
export function useEnrolDraft(staffId: string, start: Start) {
  const name = nameOf(staffId, start.discharge?.id ?? null)
  const [draft, setDraft] = useState(() => newEnrolment(start))
  const [isRead, setRead] = useState(false)

  useEffect(() => {
    forgetOthers(staffId)
    const before = kept(name)
    if (before) setDraft(before)
    setRead(true)
  }, [name, staffId])
  useEffect(() => {
    if (isRead) window.sessionStorage.setItem(name, JSON.stringify(draft))
  }, [isRead, name, draft])

  return {
    draft,
    set: (part: Partial<EnrolDraft>) => setDraft((before) => ({ ...before, ...part })),
    forget: () => {
      setRead(false) // nothing is kept from now on
      window.sessionStorage.removeItem(name)
    },
    startAnew: () => setDraft(newEnrolment(start)),
  }
}
