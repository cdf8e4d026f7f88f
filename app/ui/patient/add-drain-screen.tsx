'use client'

import { useSuspenseQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { useRouter } from 'next/navigation'
import { useState } from 'react'
import { z } from 'zod'
import { patientDoor } from '@/lib/client/patient-door.ts'
import { patientQuery } from '@/lib/client/patient-query.ts'
import { useServerNow } from '@/lib/client/server-time.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { fullDate } from '@/lib/domain/local-time.ts'
import { doorFaults } from '../enrol/draft.ts'
import { drainFaults, newDrain, type Offered, toDrain } from '../enrol/drain-draft.ts'
import { DrainFields } from '../enrol/drain-fields.tsx'
import css from '../enrol/enrol.module.css'
import { Part } from '../enrol/part.tsx'
import form from '../parts/form.module.css'
import { TextField } from '../parts/text-field.tsx'

/** Where the fields of the drain hang, here and at the door for enrolment. */
const PATH = 'drains[0]'

/** The form for a further drain: what it is and what is ordered, with the reason. */
export function AddDrainScreen({ id, offered }: { id: string; offered: Offered }) {
  const { data: page } = useSuspenseQuery(patientQuery(id))
  const { patient, clinic } = page
  const now = useServerNow(page.asOf)
  const router = useRouter()
  const [drain, setDrain] = useState(() => newDrain(1, offered))
  const [why, setWhy] = useState('')
  const [own, setOwn] = useState<Record<string, string>>({})
  const back = `/patients/${id}`
  const { send, isSending, fault } = useSend(`${patientDoor(id)}/drains`, z.unknown(), () =>
    router.push(back),
  )
  const refused = (fault?.fields ?? []).map(({ field, message }) => ({
    field: field.replace(/^drain\b/, PATH),
    message,
  }))
  const faults: Record<string, string> = { ...doorFaults(refused), ...own }
  const isOwn = Object.keys(own).length > 0

  const submit = () => {
    const zones = { patient: patient.timeZone, clinic: clinic.timeZone }
    const found: Record<string, string> = why.trim() ? {} : { why: 'Say why; it is kept with the orders.' }
    for (const [name, text] of Object.entries(drainFaults(drain, zones, now))) found[`${PATH}.${name}`] = text
    setOwn(found)
    if (Object.keys(found).length === 0 && !fault?.stored)
      send({ drain: toDrain(drain, zones), why: why.trim() })
    else queueMicrotask(() => document.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus())
  }

  return (
    <form
      noValidate
      className={css.form}
      onSubmit={(event) => {
        event.preventDefault()
        submit()
      }}
    >
      <div>
        <h1>Add a drain to {patient.name}</h1>
        <p>
          {fullDate(patient.birthDate)} · {patient.recordNumber}
        </p>
        <p className={form.hint}>
          For a new place. A new tube in the same place is an event of the drain that is there: exchanged, or
          replaced.
        </p>
      </div>
      <Part title="Drain">
        <DrainFields drain={drain} path={PATH} offered={offered} faults={faults} onChange={setDrain} />
      </Part>
      <TextField label="Why" size={44} maxLength={500} value={why} onChange={setWhy} fault={faults.why} />
      {fault || isOwn ? (
        <div role="alert" className={form.trouble}>
          <p>{isOwn ? 'Something above still needs a look; it is marked.' : fault?.text}</p>
          {(isOwn ? [] : refused).map(({ field, message }) => (
            <p key={`${field} ${message}`}>
              {field.replace(`${PATH}.`, '')} {message}
            </p>
          ))}
        </div>
      ) : null}
      <p className={form.row}>
        <button type="submit" data-main aria-disabled={isSending}>
          {isSending ? 'Sending' : 'Add the drain'}
        </button>
        <Link className="button" href={back} prefetch={false}>
          Cancel
        </Link>
      </p>
    </form>
  )
}
