'use client'

import { useState } from 'react'
import type { CallAnswer } from '@/lib/client/call-answers.ts'
import { patientDoor } from '@/lib/client/patient-door.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { inPlace } from '@/lib/domain/call-sheet.ts'
import { capital } from '@/lib/domain/capital.ts'
import { NOTE_MAX } from '@/lib/domain/limits.ts'
import { inputTime } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import type { Report } from '@/lib/domain/record.ts'
import { Receipt } from '@/lib/domain/submission.ts'
import { Field } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import { toldOf, withTold } from './call-sheet-answers.ts'
import { DialogForm, PatientDialog } from './patient-dialog.tsx'
import css from './report.module.css'
import { draftOf, emptyReport, type ReportDraft, reportFaults, toSubmission } from './report-draft.ts'
import { DrainPart } from './report-drain.tsx'
import { SymptomsPart } from './report-symptoms.tsx'

type Props = {
  page: PatientPage
  correcting: Report | null
  /** Answers of the call sheet that tell a reading or a symptom: the form opens with them, and nothing is stored unread. */
  told: readonly CallAnswer[]
  now: number
  onClose: () => void
  onDone: (says: string) => void
}

/** What the patient says on the phone, entered by who hears it; or a correction of a report, which keeps the old one. */
export function ReportDialog({ page, correcting, told, now, onClose, onDone }: Props) {
  const { patient, record } = page
  const zone = patient.timeZone
  const drains = correcting ? record.drains : inPlace(page)
  const ids = drains.map(({ id }) => id)
  const [draft, setDraft] = useState<ReportDraft>(() =>
    correcting
      ? draftOf(correcting, page.reports[correcting.id]?.note ?? '', ids, zone)
      : withTold(emptyReport(ids, now, zone), told),
  )
  const [faults, setFaults] = useState<Record<string, string>>({})
  const sending = useSend(`${patientDoor(patient.id)}/reports`, Receipt, ({ receipt, advice }) =>
    onDone(
      [
        `Report ${receipt} is stored.`,
        ...(advice.length > 0 ? ['Read out to them:', ...advice.map(({ text }) => `– ${text}`)] : []),
      ].join('\n'),
    ),
  )
  const set = (part: Partial<ReportDraft>) => setDraft((before) => ({ ...before, ...part }))
  const hint = `Times are the patient’s own (${zone.replaceAll('_', ' ')}, now ${inputTime(now, zone).slice(11)}). Leave out what was not asked. Enter sends; ? as the volume: could not measure; in a list the first letter chooses.`

  const submit = () => {
    const found = reportFaults(draft, zone)
    setFaults(found)
    if (Object.keys(found).length === 0) sending.send(toSubmission(draft, zone, correcting?.id ?? null))
  }

  return (
    <PatientDialog
      wide
      patient={patient}
      title={correcting ? 'Correct a report of' : 'Report by phone of'}
      onClose={onClose}
    >
      <DialogForm
        main={correcting ? 'Store the correction' : 'Store the report'}
        sending={sending}
        onSubmit={submit}
        onClose={onClose}
      >
        <p className={form.hint}>{hint}</p>
        {toldOf(told).length > 0 ? (
          <p className={css.told}>
            Filled in from the call sheet: <b>{toldOf(told).join('; ')}</b>. Read it once more; nothing is
            stored before you do.
          </p>
        ) : null}
        {correcting ? <p>This replaces the whole report; the old one stays in sight, struck out.</p> : null}
        {drains.map(({ id }) => (
          <DrainPart
            key={id}
            drain={id}
            label={capital(page.labels[id]?.label ?? id)}
            draft={draft}
            set={set}
            faults={faults}
          />
        ))}
        <SymptomsPart draft={draft} set={set} faults={faults} />
        <Field label="In their words">
          {(wired) => (
            <textarea
              {...wired}
              maxLength={NOTE_MAX}
              value={draft.note}
              onChange={(event) => set({ note: event.target.value })}
            />
          )}
        </Field>
        {Object.keys(faults).length > 0 ? (
          <p role="alert" className={form.fault}>
            {faults.whole ?? 'Something above still needs a look; it is marked.'}
          </p>
        ) : null}
      </DialogForm>
    </PatientDialog>
  )
}
