'use client'

import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { z } from 'zod'
import { ask } from '@/lib/client/ask.ts'
import { patientDoor } from '@/lib/client/patient-door.ts'
import { useFound } from '@/lib/client/use-found.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { capital } from '@/lib/domain/capital.ts'
import { dayAndTime, fullDate } from '@/lib/domain/local-time.ts'
import { MoveTarget } from '@/lib/domain/move-report.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import type { Report } from '@/lib/domain/record.ts'
import { drainsOfReport } from '@/lib/domain/report-drains.ts'
import { Choice, Field, Group } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import { faultOf } from '../parts/form-foot.tsx'
import { Select } from '../parts/select.tsx'
import { TextField } from '../parts/text-field.tsx'
import { DialogForm, PatientDialog } from './patient-dialog.tsx'

type Props = { page: PatientPage; report: Report; onClose: () => void; onDone: (says: string) => void }

/** A report that was filed under the wrong patient: to whom it belongs, which drain is meant, and why. */
export function MoveDialog({ page, report, onClose, onDone }: Props) {
  const { patient, clinic } = page
  const [wanted, setWanted] = useState('')
  const [to, setTo] = useState<string | null>(null)
  const [drains, setDrains] = useState<Record<string, string>>({})
  const [why, setWhy] = useState('')
  const [sure, setSure] = useState(false)
  const [tried, setTried] = useState(false)
  const found = useFound(wanted)
  const others = (found.data ?? []).filter(({ patientId }) => patientId !== patient.id)
  const { data: target } = useQuery({
    queryKey: ['move-target', to],
    queryFn: ({ signal }) => ask(`${patientDoor(to ?? '')}/drains`, MoveTarget, { signal }),
    enabled: to !== null,
    staleTime: 60_000,
    gcTime: 60_000,
  })
  const named = drainsOfReport(report).map(({ drain }) => drain)
  const only = target?.drains.length === 1 && named.length === 1 ? target.drains[0]?.id : undefined
  const chosen = (drain: string) => drains[drain] ?? only ?? ''
  const sending = useSend(
    `${patientDoor(patient.id)}/reports/${encodeURIComponent(report.id)}/move`,
    z.unknown(),
    () =>
      onDone(
        `The report was moved to ${target?.name ?? 'the other patient'}, ${target?.recordNumber ?? ''}. Both were assessed.`,
      ),
  )

  const wrong: Record<string, string> = {
    ...(to && target ? {} : { to: 'Find and choose the right patient.' }),
    ...(target && named.some((drain) => !chosen(drain)) ? { drains: 'Say which drain each is.' } : {}),
    ...(why.trim() ? {} : { why: 'Say why it is moved.' }),
    ...(sure ? {} : { sure: 'Check who it is first.' }),
  }
  const faults = tried ? wrong : {}

  const submit = () => {
    setTried(true)
    if (Object.keys(wrong).length === 0)
      sending.send({
        to,
        drains: Object.fromEntries(named.map((drain) => [drain, chosen(drain)])),
        why: why.trim(),
      })
  }

  return (
    <PatientDialog patient={patient} title="Move a report away from" onClose={onClose}>
      <DialogForm
        main="Move the report"
        sending={sending}
        shown={['drains', 'why', 'to']}
        onSubmit={submit}
        onClose={onClose}
      >
        <p>
          The report of {dayAndTime(report.receivedAt, clinic.timeZone)}, with its corrections. It stays in
          the history of both patients; there it counts as received now. Both are assessed.
        </p>
        <TextField
          label="The right patient: name or record number"
          value={wanted}
          onChange={(text) => {
            setWanted(text)
            setTo(null)
            setSure(false)
          }}
          fault={faults.to ?? faultOf(sending.fault, 'to')}
        />
        {others.length > 0 ? (
          <Group legend="Found">
            {others.map(({ patientId, name, birthDate, recordNumber }) => (
              <Choice
                key={patientId}
                type="radio"
                name="to"
                checked={to === patientId}
                onChange={() => {
                  setTo(patientId)
                  setDrains({})
                  setSure(false)
                }}
              >
                {name}, {fullDate(birthDate)}, {recordNumber}
              </Choice>
            ))}
          </Group>
        ) : null}
        {found.data && wanted.trim().length > 1 && others.length === 0 ? (
          <p role="status">Nobody else is called so, nor has such a record number.</p>
        ) : null}
        {target
          ? named.map((drain) => (
              <Field
                key={drain}
                label={`${capital(page.labels[drain]?.label ?? drain)} of this report is`}
                fault={faults.drains ?? faultOf(sending.fault, `drains.${drain}`)}
              >
                {(wired) => (
                  <Select
                    {...wired}
                    value={chosen(drain)}
                    onChange={(id) => setDrains((before) => ({ ...before, [drain]: id }))}
                    labels={Object.fromEntries(target.drains.map(({ id, label }) => [id, label]))}
                    empty="choose"
                  />
                )}
              </Field>
            ))
          : null}
        <TextField
          label="Why"
          size={44}
          maxLength={500}
          value={why}
          onChange={setWhy}
          fault={faults.why ?? faultOf(sending.fault, 'why')}
        />
        {target ? (
          <Group legend="It is this person" fault={faults.sure}>
            <Choice type="checkbox" checked={sure} onChange={setSure}>
              {target.name}, {fullDate(target.birthDate)}, {target.recordNumber}: checked with whoever
              reported
            </Choice>
          </Group>
        ) : (
          <p className={form.hint}>Ask whoever reported for two things: the name and the birth date.</p>
        )}
      </DialogForm>
    </PatientDialog>
  )
}
