'use client'

import type { CallAnswers } from '@/lib/client/call-answers.ts'
import type { Callback } from '@/lib/domain/callback.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import type { Drain, Report } from '@/lib/domain/record.ts'
import type { StaffMember } from '@/lib/domain/staff.ts'
import type { KeptStaffEvent } from '@/lib/domain/staff-event.ts'
import { CallbackDialog } from '../callback/callback-dialog.tsx'
import { CorrectDialog } from '../callback/correct-dialog.tsx'
import { AdmitDialog, HomeDialog } from './admission-dialogs.tsx'
import { askedOf } from './call-sheet-answers.ts'
import { CorrectDrainDialog } from './correct-drain-dialog.tsx'
import { DerivationDialog } from './derivation/derivation-dialog.tsx'
import { EndDialog } from './end-dialog.tsx'
import { EventDialog } from './event-dialog.tsx'
import { WithdrawDialog } from './event-withdraw.tsx'
import { ExportDialog } from './export-dialog.tsx'
import { LinkDialog } from './link-dialog.tsx'
import { NoteDialog } from './note-dialog.tsx'
import { OrdersDialog } from './orders-dialog.tsx'
import { PersonDialog } from './person-dialog.tsx'
import { ReportDialog } from './report-dialog.tsx'
import { MoveDialog } from './report-move.tsx'
import { ResumeDialog } from './resume-dialog.tsx'
import { standingFlags } from './standing.ts'
import { VisitsDialog } from './visits-dialog.tsx'

/** Which form is open over a patient's page; one at a time. */
export type OpenForm =
  | { what: 'call' }
  | { what: 'correct-call'; call: Callback }
  | { what: 'event' }
  | { what: 'withdraw-event'; event: KeptStaffEvent }
  | { what: 'correct-drain'; drain: Drain }
  | { what: 'note' }
  | { what: 'orders' }
  | { what: 'day'; drain: string; date: string }
  | { what: 'export' }
  | { what: 'link' }
  | { what: 'visits' }
  | { what: 'person' }
  | { what: 'end' }
  | { what: 'resume' }
  | { what: 'admit' }
  | { what: 'home' }
  | { what: 'move'; report: Report }
  | { what: 'report'; correcting: Report | null }

type Props = {
  page: PatientPage
  staff: StaffMember
  open: OpenForm | null
  /** What was answered in the call that is under way. */
  answers: CallAnswers
  now: number
  onClose: () => void
  onDone: (says: string) => void
}

export function PatientForms({ page, staff, open, answers, now, onClose, onDone }: Props) {
  const { patient } = page
  if (open === null) return null
  if (open.what === 'event') return <EventDialog page={page} now={now} onClose={onClose} onDone={onDone} />
  if (open.what === 'correct-drain')
    return <CorrectDrainDialog page={page} drain={open.drain} onClose={onClose} onDone={onDone} />
  if (open.what === 'withdraw-event')
    return <WithdrawDialog page={page} event={open.event} onClose={onClose} onDone={onDone} />
  if (open.what === 'note')
    return <NoteDialog page={page} by={staff.name} onClose={onClose} onDone={onDone} />
  if (open.what === 'correct-call')
    return <CorrectDialog page={page} call={open.call} now={now} onClose={onClose} onDone={onDone} />
  if (open.what === 'day') return <DerivationDialog page={page} first={open} onClose={onClose} />
  if (open.what === 'export') return <ExportDialog page={page} onClose={onClose} />
  if (open.what === 'link') return <LinkDialog page={page} onClose={onClose} />
  if (open.what === 'visits') return <VisitsDialog page={page} now={now} onClose={onClose} onDone={onDone} />
  if (open.what === 'person') return <PersonDialog page={page} onClose={onClose} onDone={onDone} />
  if (open.what === 'end') return <EndDialog page={page} staff={staff} onClose={onClose} onDone={onDone} />
  if (open.what === 'resume') return <ResumeDialog page={page} onClose={onClose} onDone={onDone} />
  if (open.what === 'orders') return <OrdersDialog page={page} onClose={onClose} onDone={onDone} />
  if (open.what === 'admit') return <AdmitDialog page={page} now={now} onClose={onClose} onDone={onDone} />
  if (open.what === 'home') return <HomeDialog page={page} now={now} onClose={onClose} onDone={onDone} />
  if (open.what === 'move')
    return <MoveDialog page={page} report={open.report} onClose={onClose} onDone={onDone} />
  if (open.what === 'report')
    return (
      <ReportDialog
        page={page}
        correcting={open.correcting}
        told={open.correcting ? [] : answers.list}
        now={now}
        onClose={onClose}
        onDone={(says) => {
          if (!open.correcting) answers.noteInReport()
          onDone(says)
        }}
      />
    )
  return (
    <CallbackDialog
      patient={{
        patientId: patient.id,
        name: patient.name,
        birthDate: patient.birthDate,
        recordNumber: patient.recordNumber,
        phone: patient.phone,
      }}
      flags={standingFlags(page.flags)}
      labels={Object.fromEntries(Object.entries(page.labels).map(([id, { label }]) => [id, label]))}
      clinicZone={page.clinic.timeZone}
      now={now}
      asked={askedOf(answers.list)}
      onClose={onClose}
      onRecorded={(withAsked) => {
        if (withAsked) answers.noteInCall()
        onDone('')
      }}
    />
  )
}
