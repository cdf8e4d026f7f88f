'use client'

import { useMutation } from '@tanstack/react-query'
import { useState } from 'react'
import { z } from 'zod'
import { ask } from '@/lib/client/ask.ts'
import { newKey } from '@/lib/client/new-key.ts'
import { patientDoor } from '@/lib/client/queries.ts'
import { faultFrom } from '@/lib/client/use-send.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { CheckInLink } from '../parts/check-in-link.tsx'
import { Dialog } from '../parts/dialog.tsx'
import form from '../parts/form.module.css'

const Issued = z.looseObject({ link: z.string() })

/** A further personal link, or the end of all of them. */
export function LinkDialog({ page, onClose }: { page: PatientPage; onClose: () => void }) {
  const { patient } = page
  const door = `${patientDoor(patient.id)}/link`
  const [key] = useState(newKey)
  const issue = useMutation({ mutationFn: () => ask(door, Issued, { method: 'POST', key }) })
  const revoke = useMutation({ mutationFn: () => ask(door, z.unknown(), { method: 'DELETE' }) })
  const isBusy = issue.isPending || revoke.isPending
  const error = issue.error ?? revoke.error
  return (
    <Dialog
      title={`Check-in link of ${patient.name}`}
      about="Links that were given before go on working until they expire or are ended."
      onClose={onClose}
    >
      <div className={form.form}>
        {issue.data ? <CheckInLink link={issue.data.link} /> : null}
        {revoke.isSuccess ? <p role="status">Every link of this patient is ended.</p> : null}
        {error ? (
          <p role="alert" className={form.fault}>
            {faultFrom(error).text}
          </p>
        ) : null}
      </div>
      <div className={form.actions}>
        {issue.data ? null : (
          <button type="button" data-main aria-disabled={isBusy} onClick={() => !isBusy && issue.mutate()}>
            Make a new link
          </button>
        )}
        {revoke.isSuccess || issue.data ? null : (
          <button type="button" aria-disabled={isBusy} onClick={() => !isBusy && revoke.mutate()}>
            End all links
          </button>
        )}
        <button type="button" onClick={onClose}>
          Close
        </button>
      </div>
    </Dialog>
  )
}
