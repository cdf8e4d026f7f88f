'use client'

import { useEffect, useState } from 'react'

/** Where enrolment and the dialog of links leave a link that was just made: it is known only then. */
export const keptLinkName = (patientId: string): string => `hand-out-link:${patientId}`

/** The whole address of a link that was made in this tab, if one was; it is forgotten once it is printed. */
export function useKeptLink(patientId: string) {
  const [link, setLink] = useState<string | null>(null)
  useEffect(() => {
    const kept = window.sessionStorage.getItem(keptLinkName(patientId))
    if (kept) setLink(new URL(kept, window.location.origin).href)
  }, [patientId])
  return {
    link,
    take: (made: string) => setLink(new URL(made, window.location.origin).href),
    forget: () => window.sessionStorage.removeItem(keptLinkName(patientId)),
  }
}
