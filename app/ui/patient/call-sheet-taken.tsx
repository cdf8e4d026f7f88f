'use client'

import { useState } from 'react'
import { z } from 'zod'
import { ask } from '@/lib/client/ask.ts'
import type { CallAnswers } from '@/lib/client/call-answers.ts'
import { newKey } from '@/lib/client/new-key.ts'
import { patientDoor } from '@/lib/client/patient-door.ts'
import type { CallSheet } from '@/lib/domain/call-sheet.ts'
import { sheetText } from '@/lib/domain/call-sheet-text.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import type { StaffMember } from '@/lib/domain/staff.ts'
import form from '../parts/form.module.css'
import css from './call-sheet.module.css'
import { askedOf } from './call-sheet-answers.ts'
import { PatientDialog } from './patient-dialog.tsx'

type Props = { page: PatientPage; sheet: CallSheet; staff: StaffMember; now: number; answers: CallAnswers }

/** Takes the sheet off the screen, as text or on paper; the access record says so. */
export function SheetTaken({ page, sheet, staff, now, answers }: Props) {
  const [says, setSays] = useState('')
  const [byHand, setByHand] = useState<string | null>(null)
  const note = async (how: 'copied' | 'printed') => {
    try {
      await ask(`${patientDoor(page.patient.id)}/call-sheet`, z.unknown(), {
        method: 'POST',
        body: { how },
        key: newKey(),
      })
      return true
    } catch {
      setSays('The server did not answer, so that this could not be noted. Try again.')
      return false
    }
  }
  const copy = async () => {
    setSays('')
    if (!(await note('copied'))) return
    const text = sheetText(page, sheet, { by: staff.name, now, asked: askedOf(answers.list) })
    try {
      await navigator.clipboard.writeText(text)
      setSays('Copied.')
    } catch {
      // A browser that keeps the clipboard to itself: it is copied by hand.
      setByHand(text)
    }
  }
  const print = async () => {
    setSays('')
    if (!(await note('printed'))) return
    const root = document.documentElement
    root.dataset.print = 'sheet'
    window.addEventListener('afterprint', () => delete root.dataset.print, { once: true })
    window.print()
  }
  return (
    <>
      <span className={css.taken}>
        <button type="button" data-quiet onClick={() => void copy()}>
          Copy<span className="for-reader"> the call sheet as text</span>
        </button>
        <button type="button" data-quiet onClick={() => void print()}>
          Print<span className="for-reader"> the call sheet</span>
        </button>
        <span role="status">{says}</span>
      </span>
      {byHand === null ? null : (
        <PatientDialog patient={page.patient} title="Call sheet of" wide onClose={() => setByHand(null)}>
          <div className={form.form}>
            <p className={form.hint}>The browser did not copy it. Mark the text and copy it by hand.</p>
            <textarea
              className={css.text}
              aria-label="Call sheet as text"
              readOnly
              rows={20}
              value={byHand}
            />
            <p>
              <button type="button" onClick={() => setByHand(null)}>
                Close
              </button>
            </p>
          </div>
        </PatientDialog>
      )}
    </>
  )
}
