'use client'

import { useRouter } from 'next/navigation'
import { useEffect, useState } from 'react'
import type { CallAnswers } from '@/lib/client/call-answers.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import form from '../parts/form.module.css'
import { PatientDialog } from './patient-dialog.tsx'

/**
 * Asks before a page is left whose answers are stored nowhere yet. `leave` goes on at once where there are none.
 * Closing or reloading the page is asked about by the browser.
 */
export function useLeave(answers: CallAnswers) {
  const router = useRouter()
  const [going, setGoing] = useState<(() => void) | null>(null)
  const isOpen = answers.list.length > 0
  const leave = (go: () => void) => (isOpen ? setGoing(() => go) : go())

  useEffect(() => {
    if (!isOpen) return
    const onClick = (event: MouseEvent) => {
      if (event.button !== 0 || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return
      const link = event.target instanceof Element ? event.target.closest<HTMLAnchorElement>('a[href]') : null
      if (!link || link.target === '_blank' || link.origin !== window.location.origin) return
      if (link.pathname === window.location.pathname) return
      event.preventDefault()
      event.stopPropagation()
      const to = link.pathname + link.search + link.hash
      setGoing(() => () => router.push(to))
    }
    // Before the link itself hears of it.
    document.addEventListener('click', onClick, { capture: true })
    return () => document.removeEventListener('click', onClick, { capture: true })
  }, [isOpen, router])

  return { leave, going, stay: () => setGoing(null) }
}

type Props = {
  patient: PatientPage['patient']
  answers: CallAnswers
  going: (() => void) | null
  onStay: () => void
}

/** What is lost by leaving, and the way to stay. */
export function LeaveDialog({ patient, answers, going, onStay }: Props) {
  if (going === null) return null
  const count = answers.list.length
  return (
    <PatientDialog patient={patient} title="Leave the call sheet of" onClose={onStay}>
      <div className={form.form}>
        <p>
          {count === 1 ? 'One answer is' : `${count} answers are`} not stored yet: record the call, and enter
          what they told as a report.
        </p>
      </div>
      <div className={form.actions}>
        <button type="button" data-main onClick={onStay}>
          Stay
        </button>
        <button
          type="button"
          onClick={() => {
            answers.drop()
            onStay()
            going()
          }}
        >
          Leave without them
        </button>
      </div>
    </PatientDialog>
  )
}
