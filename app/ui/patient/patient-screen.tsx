'use client'

import Link from 'next/link'
import { useEffect, useRef, useState } from 'react'
import { useCallAnswers } from '@/lib/client/call-answers.ts'
import { useServerNow } from '@/lib/client/server-time.ts'
import { useHold } from '@/lib/client/use-hold.ts'
import { useLive } from '@/lib/client/use-live.ts'
import { usePatientPage } from '@/lib/client/use-patient-page.ts'
import { numberToCall } from '@/lib/domain/call-person.ts'
import { clockTime } from '@/lib/domain/local-time.ts'
import type { Report } from '@/lib/domain/record.ts'
import { may, type StaffMember } from '@/lib/domain/staff.ts'
import { RecordedCallLine } from '../callback/recorded-call.tsx'
import { Timeline } from '../timeline/timeline.tsx'
import { Connection } from '../worklist/connection.tsx'
import { KeepHold } from '../worklist/keep-hold.tsx'
import { OverruleDialog } from '../worklist/overrule-dialog.tsx'
import { holdText } from '../worklist/row-text.ts'
import { useKeyChoice } from '../worklist/use-key-choice.ts'
import { BetweenCalls } from './between-calls.tsx'
import { CallSheet } from './call-sheet.tsx'
import { useJump } from './call-sheet-jump.ts'
import { LeaveDialog, useLeave } from './call-sheet-leave.tsx'
import { CallsList } from './calls-list.tsx'
import { EscalationsList } from './escalations-list.tsx'
import { EventsList } from './events-list.tsx'
import { FlagsList } from './flags-list.tsx'
import { Key, keyed } from './key.tsx'
import { NotesList } from './notes-list.tsx'
import { Notices } from './notices.tsx'
import { OrdersList } from './orders-list.tsx'
import css from './patient.module.css'
import { type OpenForm, PatientForms } from './patient-forms.tsx'
import { PersonPanel } from './person-panel.tsx'
import { ReportsList } from './reports-list.tsx'
import { newestOfOthers } from './standing.ts'
import { Title } from './title.tsx'
import { RecordedChangeLine } from './undo-line-page.tsx'
import { useKey } from './use-key.ts'

/** One patient, on one page: what drains, what came, what was said, what to ask now. */
export function PatientScreen({ id, staff }: { id: string; staff: StaffMember }) {
  const { page, error, refetch, earlier } = usePatientPage(id)
  const live = useLive()
  const now = useServerNow(page.asOf)
  const holding = useHold()
  const [open, setOpen] = useState<OpenForm | null>(null)
  const [overruling, setOverruling] = useState(false)
  const [says, setSays] = useState('')
  const [keysOn] = useKeyChoice()
  const answers = useCallAnswers(id)
  const leaving = useLeave(answers)

  const newest = newestOfOthers(page, staff.name)
  const before = useRef(newest?.id)
  useEffect(() => {
    if (newest && newest.id !== before.current)
      setSays(`A report has come in at ${clockTime(newest.receivedAt, page.clinic.timeZone)}.`)
    before.current = newest?.id
  }, [newest, page.clinic.timeZone])

  const hold = holdText(page.hold, now, staff.id)
  const phone = numberToCall(page)
  const step = (wish: 'take' | 'renew' | 'release') => {
    if (holding.isPending) return
    setSays('')
    holding.mutate({ patientId: id, step: wish }, { onError: (failed) => setSays(failed.message) })
  }
  const can = (action: Parameters<typeof may>[1]) => may(staff.role, action)
  const correct = can('enter-report')
    ? (report: Report) => setOpen({ what: 'report', correcting: report })
    : null

  const enterReport = () => setOpen({ what: 'report', correcting: null })
  const openDay = (drain: string, date: string) => setOpen({ what: 'day', drain, date })
  useJump((target) => {
    if (target.to !== 'day' || target.drain === null) return false
    openDay(target.drain, target.date)
    return true
  })
  const isFree = keysOn && open === null
  useKey('r', can('enter-report') && isFree, enterReport)
  useKey('c', can('record-callback') && isFree, () => setOpen({ what: 'call' }))
  useKey('n', can('write-note') && isFree, () => setOpen({ what: 'note' }))

  return (
    <>
      <Connection
        live={live}
        error={error}
        asOf={page.asOf}
        now={now}
        zone={page.clinic.timeZone}
        onTry={() => void refetch()}
      />
      <KeepHold patientId={id} hold={page.hold} selfId={staff.id} now={now} renew={holding} />
      <div className={css.top}>
        <Title page={page} now={now} selfId={staff.id} />
        <BetweenCalls
          patientId={id}
          mayTake={can('take-row')}
          keysOn={keysOn}
          leave={leaving.leave}
          onTrouble={setSays}
        />
      </div>
      <Notices page={page} staff={staff} onResume={() => setOpen({ what: 'resume' })} />
      <p role="status" className={says ? css.says : undefined}>
        {says}
      </p>
      <RecordedCallLine patientId={id} onVisits={() => setOpen({ what: 'visits' })} />
      <RecordedChangeLine page={page} staffId={staff.id} />
      <div className={css.room}>
        <Timeline page={page} earlier={earlier} onDay={openDay} />
        <CallSheet
          page={page}
          now={now}
          staff={staff}
          answers={answers}
          keysOn={keysOn}
          onReport={can('enter-report') ? enterReport : null}
        >
          {phone ? (
            <a className="button" data-main href={`tel:${phone.replace(/[^\d+]/g, '')}`}>
              Call {phone}
            </a>
          ) : null}
          {can('record-callback') ? (
            <button type="button" onClick={() => setOpen({ what: 'call' })} {...keyed('C', keysOn)}>
              Record the call <Key letter="C" on={keysOn} />
            </button>
          ) : null}
          {hold === null && can('take-row') ? (
            <button type="button" onClick={() => step('take')} aria-disabled={holding.isPending}>
              Take
            </button>
          ) : null}
          {hold?.isOwn ? (
            <>
              <button type="button" onClick={() => step('renew')} aria-disabled={holding.isPending}>
                Keep longer
              </button>
              <button type="button" onClick={() => step('release')} aria-disabled={holding.isPending}>
                Give back
              </button>
            </>
          ) : null}
          {hold && !hold.isOwn && can('override-take') ? (
            <button type="button" onClick={() => setOverruling(true)}>
              Take over
            </button>
          ) : null}
        </CallSheet>
      </div>
      <div className={css.others}>
        {can('enter-report') ? (
          <button type="button" onClick={enterReport} {...keyed('R', keysOn)}>
            Enter a report by phone <Key letter="R" on={keysOn} />
          </button>
        ) : null}
        {can('write-note') ? (
          <button type="button" onClick={() => setOpen({ what: 'note' })} {...keyed('N', keysOn)}>
            Write a note <Key letter="N" on={keysOn} />
          </button>
        ) : null}
        {can('enter-report') ? (
          <Link className="button" href={`/patients/${page.patient.id}/paper`} prefetch={false}>
            Paper log
          </Link>
        ) : null}
        {can('record-staff-event') ? (
          <button type="button" onClick={() => setOpen({ what: 'event' })}>
            Record an event
          </button>
        ) : null}
        {can('change-orders') ? (
          <button type="button" onClick={() => setOpen({ what: 'orders' })}>
            Change orders
          </button>
        ) : null}
        {can('enrol') ? (
          <button type="button" onClick={() => setOpen({ what: 'link' })}>
            New check-in link
          </button>
        ) : null}
        <Link className="button" href={`/patients/${page.patient.id}/hand-out`} prefetch={false}>
          Hand-out
        </Link>
        {can('book-visit') ? (
          <button type="button" onClick={() => setOpen({ what: 'visits' })}>
            Visits
          </button>
        ) : null}
        <button type="button" onClick={() => setOpen({ what: 'export' })}>
          Export
        </button>
        {can('admit') && page.followUp.endedAt === null ? (
          <button type="button" onClick={() => setOpen({ what: page.admission ? 'home' : 'admit' })}>
            {page.admission ? 'Home again' : 'In hospital'}
          </button>
        ) : null}
        {can('end-follow-up') && page.followUp.endedAt === null ? (
          <button type="button" onClick={() => setOpen({ what: 'end' })}>
            End follow-up
          </button>
        ) : null}
      </div>
      <div className={css.below}>
        <FlagsList page={page} />
        <PersonPanel page={page} onEdit={can('edit-patient') ? () => setOpen({ what: 'person' }) : null} />
        <OrdersList
          page={page}
          now={now}
          canAdd={can('enrol') && page.followUp.endedAt === null}
          onCorrect={can('edit-patient') ? (drain) => setOpen({ what: 'correct-drain', drain }) : null}
        />
        <CallsList
          page={page}
          onCorrect={can('record-callback') ? (call) => setOpen({ what: 'correct-call', call }) : null}
        />
        <EventsList
          page={page}
          onWithdraw={
            can('record-staff-event') ? (event) => setOpen({ what: 'withdraw-event', event }) : null
          }
        />
        <NotesList page={page} />
        <EscalationsList page={page} />
        <ReportsList
          page={page}
          earlier={earlier}
          onCorrect={correct}
          onMove={can('move-report') ? (report) => setOpen({ what: 'move', report }) : null}
        />
      </div>
      <PatientForms
        page={page}
        staff={staff}
        open={open}
        answers={answers}
        now={now}
        onClose={() => setOpen(null)}
        onDone={(text) => {
          setOpen(null)
          setSays(text)
        }}
      />
      <LeaveDialog patient={page.patient} answers={answers} going={leaving.going} onStay={leaving.stay} />
      {overruling ? (
        <OverruleDialog
          patientId={id}
          name={page.patient.name}
          holder={page.hold?.name ?? 'Somebody'}
          hold={holding}
          onClose={() => setOverruling(false)}
        />
      ) : null}
    </>
  )
}
