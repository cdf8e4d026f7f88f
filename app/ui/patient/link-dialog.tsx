'use client'

import { useState } from 'react'
import { clockTime, fullDate } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { CheckInLink } from '../parts/check-in-link.tsx'
import { Dialog } from '../parts/dialog.tsx'
import form from '../parts/form.module.css'
import { HelperForm } from './links/helper-form.tsx'
import css from './links/links.module.css'
import { LinksList } from './links/links-list.tsx'
import { type Shown, useLinks } from './links/use-links.ts'

/** The patient's links: who has one, a new one, one for a helper, one in the place of a lost one, a code to renew. */
export function LinkDialog({ page, onClose }: { page: PatientPage; onClose: () => void }) {
  const { patient, clinic } = page
  const { links, shown, step, isBusy, fault } = useLinks(patient.id)
  const [isNaming, setNaming] = useState(false)
  return (
    <Dialog
      title={`Check-in links of ${patient.name}`}
      about={`${fullDate(patient.birthDate)} · ${patient.recordNumber}`}
      onClose={onClose}
    >
      <div className={form.form}>
        <p className={form.hint}>
          A lost phone: replace its link, and the old one ends at once. A link that has ended, or soon will,
          is renewed with a code that you read out on the phone.
        </p>
        {shown ? <ShownOnce shown={shown} zone={clinic.timeZone} /> : null}
        {fault ? (
          <p role="alert" className={form.fault}>
            {fault.text}
          </p>
        ) : null}
        {isNaming ? (
          <HelperForm
            isBusy={isBusy}
            onMake={(wanted) => {
              step({ what: 'new', wanted })
              setNaming(false)
            }}
            onLeave={() => setNaming(false)}
          />
        ) : null}
        {links ? <LinksList links={links} zone={clinic.timeZone} isBusy={isBusy} step={step} /> : null}
      </div>
      <div className={form.actions}>
        <button
          type="button"
          data-main
          aria-disabled={isBusy}
          onClick={() => step({ what: 'new', wanted: { holder: 'patient' } })}
        >
          Make a new link
        </button>
        {isNaming ? null : (
          <button type="button" aria-disabled={isBusy} onClick={() => setNaming(true)}>
            Link for a helper
          </button>
        )}
        <button type="button" aria-disabled={isBusy} onClick={() => step({ what: 'code' })}>
          Code to renew
        </button>
        <button type="button" aria-disabled={isBusy} onClick={() => step({ what: 'end-all' })}>
          End all links
        </button>
        <button type="button" onClick={onClose}>
          Close
        </button>
      </div>
    </Dialog>
  )
}

function ShownOnce({ shown, zone }: { shown: Shown; zone: string }) {
  if (shown.what === 'done') return <p role="status">{shown.says}</p>
  if (shown.what === 'link')
    return <CheckInLink key={shown.link} link={shown.link} helper={shown.helper ?? undefined} />
  const { code, expiresAt } = shown
  return (
    <div role="status">
      <p>Read these digits out to whoever has the link. They type them on their check-in page.</p>
      <p className={css.code}>
        {code.slice(0, 4)} {code.slice(4)}
      </p>
      <p className={css.about}>
        Shown once, here. For one use, until {clockTime(expiresAt, zone)}; after five wrong tries it is over.
      </p>
    </div>
  )
}
