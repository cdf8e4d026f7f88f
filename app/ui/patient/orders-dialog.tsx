'use client'

import { useState } from 'react'
import { z } from 'zod'
import { patientDoor } from '@/lib/client/queries.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { inPlace } from '@/lib/domain/call-sheet.ts'
import { capital } from '@/lib/domain/capital.ts'
import { fullDate, inputTime, instantOf } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import type { Drain } from '@/lib/domain/record.ts'
import { Dialog } from '../parts/dialog.tsx'
import { Choice, Field, Group } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import { FormFoot, faultOf } from '../parts/form-foot.tsx'
import { draftOfOrders, type OrdersFaults, ordersFaults, toOrders } from '../parts/orders-draft.ts'
import { OrdersFields } from '../parts/orders-fields.tsx'

type Props = { page: PatientPage; onClose: () => void; onDone: (says: string) => void }

/** Other orders for one drain: a further version, with a reason; what was ordered before is kept. */
export function OrdersDialog({ page, onClose, onDone }: Props) {
  const drains = inPlace(page)
  const [chosen, setChosen] = useState(drains[0]?.id ?? '')
  const drain = drains.find(({ id }) => id === chosen)
  return (
    <Dialog
      title={`Orders of ${page.patient.name}`}
      about={`${fullDate(page.patient.birthDate)} · ${page.patient.recordNumber}`}
      onClose={onClose}
    >
      {drains.length > 1 ? (
        <div className={form.form}>
          <Group legend="Drain">
            {drains.map(({ id }) => (
              <Choice
                key={id}
                type="radio"
                name="orders-drain"
                checked={chosen === id}
                onChange={() => setChosen(id)}
              >
                {capital(page.labels[id]?.label ?? id)}
              </Choice>
            ))}
          </Group>
        </div>
      ) : null}
      {drain ? (
        <OrdersForm key={drain.id} drain={drain} page={page} onClose={onClose} onDone={onDone} />
      ) : (
        <div className={form.actions}>
          <p>No drain is in place.</p>
          <button type="button" onClick={onClose}>
            Close
          </button>
        </div>
      )}
    </Dialog>
  )
}

type FormProps = Props & { drain: Drain }

function OrdersForm({ drain, page, onClose, onDone }: FormProps) {
  const zone = page.clinic.timeZone
  const [draft, setDraft] = useState(() => draftOfOrders(drain))
  const [booked, setBooked] = useState(
    drain.exchangeBookedFor ? inputTime(drain.exchangeBookedFor, zone) : '',
  )
  const [why, setWhy] = useState('')
  const [faults, setFaults] = useState<OrdersFaults & { why?: string; booked?: string }>({})
  const { send, isSending, fault } = useSend(`${patientDoor(page.patient.id)}/orders`, z.unknown(), () =>
    onDone('The orders are changed.'),
  )

  const submit = () => {
    const bookedFor = booked ? instantOf(booked, zone) : null
    const found = {
      ...ordersFaults(draft),
      ...(why.trim() ? {} : { why: 'Say why; it is kept with the orders.' }),
      ...(booked && !bookedFor ? { booked: 'Give a day and a time.' } : {}),
    }
    setFaults(found)
    if (Object.keys(found).length > 0 || fault?.stored) return
    const { plan, bagCapacityMl } = toOrders(draft)
    send({ drain: drain.id, why: why.trim(), ...plan, bagCapacityMl, exchangeBookedFor: bookedFor })
  }

  return (
    <form
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        submit()
      }}
    >
      <div className={form.form}>
        <OrdersFields
          draft={draft}
          set={(part) => setDraft((before) => ({ ...before, ...part }))}
          faults={faults}
        />
        <Field
          label="Exchange booked for"
          hint="Clinic time; empty: none booked."
          fault={faults.booked ?? faultOf(fault, 'exchangeBookedFor')}
        >
          {(wired) => (
            <input
              {...wired}
              type="datetime-local"
              value={booked}
              onChange={(event) => setBooked(event.target.value)}
            />
          )}
        </Field>
        <Field label="Why" fault={faults.why ?? faultOf(fault, 'why')}>
          {(wired) => (
            <textarea
              {...wired}
              maxLength={500}
              value={why}
              onChange={(event) => setWhy(event.target.value)}
            />
          )}
        </Field>
      </div>
      <FormFoot
        main="Change the orders"
        isSending={isSending}
        fault={fault}
        shown={['why', 'exchangeBookedFor']}
        onClose={onClose}
      />
    </form>
  )
}
