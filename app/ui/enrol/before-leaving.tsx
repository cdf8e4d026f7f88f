'use client'

import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { type ReactNode, useEffect, useState } from 'react'
import { z } from 'zod'
import { patientDoor } from '@/lib/client/patient-door.ts'
import { patientQuery } from '@/lib/client/patient-query.ts'
import { useLive } from '@/lib/client/use-live.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { reporterLabels } from '@/lib/domain/labels.ts'
import { fullDate, when } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { emptyProfile } from '@/lib/domain/profile.ts'
import { keptLinkName } from '../hand-out/use-kept-link.ts'
import { CheckInLink } from '../parts/check-in-link.tsx'
import form from '../parts/form.module.css'
import css from './enrol.module.css'

/** What is still to do while the patient is here: it fills in by itself as it is done. */
export function BeforeLeaving({ patientId }: { patientId: string }) {
  useLive()
  const { data: page, error } = useQuery(patientQuery(patientId, 'whole'))
  const [link, setLink] = useState<string | null>(null)
  useEffect(() => setLink(window.sessionStorage.getItem(keptLinkName(patientId))), [patientId])

  if (!page)
    return (
      <div className={css.form}>
        <p role="status">{error ? error.message : 'Enrolled. Reading the chart.'}</p>
      </div>
    )
  const { patient } = page
  return (
    <div className={css.form}>
      <div>
        <h1 tabIndex={-1} ref={toHeading} className={css.heading}>
          {patient.name} is enrolled
        </h1>
        <p>
          {fullDate(patient.birthDate)} · {patient.recordNumber}
        </p>
      </div>
      <section className={css.part} aria-labelledby="before-leaving">
        <h2 id="before-leaving">Before they leave</h2>
        <ol className={css.steps}>
          <Step name="Link on their phone" isDone={page.record.reports.length > 0}>
            {link ? (
              <CheckInLink link={link} />
            ) : (
              <p>It was shown when it was made. A new one is made on the patient’s page.</p>
            )}
          </Step>
          <Step name="Hand-out">
            <Link className="button" href={`/patients/${patientId}/hand-out`} prefetch={false}>
              Print the hand-out
            </Link>
          </Step>
          <FirstReport page={page} />
          <Answered
            page={page}
            name="teachBack"
            title="Teach-back"
            done="They said back what to watch for and when to call."
            action="Teach-back is done"
          />
          <Answered
            page={page}
            name="thermometer"
            title="Thermometer"
            done="They have one at home."
            action="They have a thermometer"
          />
        </ol>
      </section>
      <p className={form.row}>
        <Link className="button" data-main href={`/patients/${patientId}`}>
          To the patient’s page
        </Link>
        <Link className="button" href="/patients/new">
          Enrol another
        </Link>
      </p>
    </div>
  )
}

const toHeading = (heading: HTMLHeadingElement | null) => heading?.focus()

function Step({ name, isDone, children }: { name: string; isDone?: boolean; children: ReactNode }) {
  return (
    <li className={css.step}>
      <h3>
        {name}
        {isDone === undefined ? null : <span className={css.state}>{isDone ? ' · done' : ' · not yet'}</span>}
      </h3>
      {children}
    </li>
  )
}

function FirstReport({ page }: { page: PatientPage }) {
  const first = page.record.reports[0]
  const from = first && page.reports[first.id]?.reporter
  return (
    <Step name="First report" isDone={first !== undefined}>
      <p role="status">
        {first
          ? `Received ${when(first.receivedAt, Date.parse(page.asOf), page.clinic.timeZone)}${from ? `, from: ${reporterLabels[from]}` : ''}.`
          : 'Let them send one now, with you beside them. It shows here when it has come.'}
      </p>
    </Step>
  )
}

type AnsweredProps = {
  page: PatientPage
  name: 'teachBack' | 'thermometer'
  title: string
  done: string
  action: string
}

/** A yes that was not given yet can be given here: it is kept as a further version of the person's details. */
function Answered({ page, name, title, done, action }: AnsweredProps) {
  const profile = page.patient.profile ?? emptyProfile
  const { send, isSending, fault } = useSend(
    `${patientDoor(page.patient.id)}/details`,
    z.unknown(),
    () => undefined,
  )
  const isDone = profile[name] === true
  return (
    <Step name={title} isDone={isDone}>
      {isDone ? (
        <p>{done}</p>
      ) : (
        <p>
          <button
            type="button"
            aria-disabled={isSending}
            onClick={() => send({ profile: { ...profile, [name]: true }, why: 'before leaving the ward' })}
          >
            {action}
          </button>{' '}
          {fault ? <span role="alert">{fault.text}</span> : null}
        </p>
      )}
    </Step>
  )
}
