'use client'

import { useRouter } from 'next/navigation'
import { useEffect, useState } from 'react'
import type { CallAnswers } from '@/lib/client/call-answers.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import form from '../parts/form.module.css'
import css from './call-sheet.module.css'
import { PatientDialog } from './patient-dialog.tsx'

/**
 * Asks before a page is left whose answers are stored nowhere yet. `leave` goes on at once where there are none.
 * Closing or reloading the page is asked about by the browser. Its way back is not: the answers are kept, and whoever
 * comes back is told (`LeftLine`).
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

type Patient = PatientPage['patient']
type LeaveProps = { patient: Patient; answers: CallAnswers; going: (() => void) | null; onStay: () => void }

/** What is lost by leaving, and the way to stay. */
export function LeaveDialog({ patient, answers, going, onStay }: LeaveProps) {
  if (going === null) return null
  return (
    <DropDialog
      patient={patient}
      answers={answers}
      title="Leave the call sheet of"
      stay="Stay"
      drop="Leave without them"
      onStay={onStay}
      onDropped={() => {
        onStay()
        going()
      }}
    />
  )
}

/** Answers that were left on the sheet, from when they are, and a way to begin without them: they may be of another call. */
export function LeftLine({
  patient,
  answers,
  zone,
}: {
  patient: Patient
  answers: CallAnswers
  zone: string
}) {
  const [isClearing, setClearing] = useState(false)
  const [first] = answers.left.map(({ at }) => at).sort()
  if (first === undefined) return null
  const count = answers.left.length
  return (
    <div className={css.left}>
      <p>
        <b>
          {count === 1 ? '1 answer' : `${count} answers`} from {dayAndTime(first, zone)}, not recorded yet.
        </b>{' '}
        You left this page in between: record them, or clear them before you ask anew.
      </p>
      <button type="button" onClick={() => setClearing(true)}>
        Clear them
      </button>
      {isClearing ? (
        <DropDialog
          patient={patient}
          answers={answers}
          title="Clear the call sheet of"
          stay="Keep them"
          drop="Clear them"
          onStay={() => setClearing(false)}
          onDropped={() => setClearing(false)}
        />
      ) : null}
    </div>
  )
}

type DropProps = {
  patient: Patient
  answers: CallAnswers
  title: string
  stay: string
  drop: string
  onStay: () => void
  onDropped: () => void
}

/** Asks once before answers that stand nowhere else are gone. */
function DropDialog({ patient, answers, title, stay, drop, onStay, onDropped }: DropProps) {
  const count = answers.list.length
  return (
    <PatientDialog patient={patient} title={title} onClose={onStay}>
      <div className={form.form}>
        <p>
          {count === 1 ? 'One answer is' : `${count} answers are`} not stored yet: record the call, and enter
          what they told as a report.
        </p>
      </div>
      <div className={form.actions}>
        <button type="button" data-main onClick={onStay}>
          {stay}
        </button>
        <button
          type="button"
          onClick={() => {
            answers.drop()
            onDropped()
          }}
        >
          {drop}
        </button>
      </div>
    </PatientDialog>
  )
}
