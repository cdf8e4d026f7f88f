'use client'

import { useState } from 'react'
import { z } from 'zod'
import { patientDoor } from '@/lib/client/patient-door.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { inPlace } from '@/lib/domain/call-sheet.ts'
import { capital } from '@/lib/domain/capital.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import type { Drain } from '@/lib/domain/record.ts'
import { Choice, Field, Group } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import { faultOf } from '../parts/form-foot.tsx'
import {
  changedOrders,
  draftOfOrders,
  type OrdersFaults,
  ordersFaults,
  ordersFieldOf,
} from '../parts/orders-draft.ts'
import { OrdersFields } from '../parts/orders-fields.tsx'
import { DialogForm, PatientDialog } from './patient-dialog.tsx'
import {
  changedThresholds,
  draftOfThresholds,
  type ThresholdName,
  ThresholdsFields,
  thresholdFaults,
} from './thresholds-fields.tsx'

type Props = { page: PatientPage; onClose: () => void; onDone: (says: string) => void }

/** Other orders for one drain: a further version, with a reason; what was ordered before is kept. */
export function OrdersDialog({ page, onClose, onDone }: Props) {
  const drains = inPlace(page)
  const [chosen, setChosen] = useState(drains[0]?.id ?? '')
  const drain = drains.find(({ id }) => id === chosen)
  return (
    <PatientDialog wide patient={page.patient} title="Orders of" onClose={onClose}>
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
    </PatientDialog>
  )
}

type FormProps = Props & { drain: Drain }
type Faults = OrdersFaults & Partial<Record<ThresholdName, string>> & { why?: string }

function OrdersForm({ drain, page, onClose, onDone }: FormProps) {
  const { vessel, flushAt, dressingType, removalPlan } = page.orders[drain.id]?.[0] ?? {}
  // What stood when the form was opened: the page reads itself again meanwhile.
  const [ordered] = useState(() => draftOfOrders(drain, { vessel, flushAt, dressingType, removalPlan }))
  const [draft, setDraft] = useState(ordered)
  const [before] = useState(() => draftOfThresholds(drain.plan.overrides))
  const [thresholds, setThresholds] = useState(before)
  const [why, setWhy] = useState('')
  const [faults, setFaults] = useState<Faults>({})
  const sending = useSend(`${patientDoor(page.patient.id)}/orders`, z.unknown(), () => onDone(''))
  const { fault } = sending
  const refused = Object.fromEntries(
    (fault?.fields ?? []).flatMap(({ field, message }) => {
      const name = ordersFieldOf(field)
      return name ? [[name, message]] : []
    }),
  )

  const submit = () => {
    const found: Faults = {
      ...ordersFaults(draft),
      ...thresholdFaults(thresholds, page.thresholds),
      ...(why.trim() ? {} : { why: 'Say why; it is kept with the orders and with each threshold.' }),
    }
    setFaults(found)
    if (Object.keys(found).length > 0) return
    const overrides = changedThresholds(thresholds, before)
    sending.send({
      drain: drain.id,
      why: why.trim(),
      ...changedOrders(draft, ordered),
      ...(Object.keys(overrides).length > 0 ? { overrides } : {}),
    })
  }

  return (
    <DialogForm
      main="Change the orders"
      sending={sending}
      shown={['why', ...Object.keys(draft), 'flush']}
      onSubmit={submit}
      onClose={onClose}
    >
      <OrdersFields
        draft={draft}
        set={(part) => setDraft((earlier) => ({ ...earlier, ...part }))}
        faults={{ ...refused, ...faults }}
      />
      <ThresholdsFields
        draft={thresholds}
        set={(part) => setThresholds((earlier) => ({ ...earlier, ...part }))}
        ranges={page.thresholds}
        faults={faults}
      />
      <Field label="Why" fault={faults.why ?? faultOf(fault, 'why')}>
        {(wired) => (
          <textarea {...wired} maxLength={500} value={why} onChange={(event) => setWhy(event.target.value)} />
        )}
      </Field>
    </DialogForm>
  )
}
