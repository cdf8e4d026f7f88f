'use client'

import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { eventsDoor, inquiryDoor, outcomePatientQuery } from '@/lib/client/outcomes-queries.ts'
import { useSend } from '@/lib/client/use-send.ts'
import { fullDate } from '@/lib/domain/local-time.ts'
import {
  answerLabels,
  INQUIRY_DAYS,
  inquiryLabels,
  type OutcomePatient,
  OutcomeSaved,
} from '@/lib/domain/outcomes-page.ts'
import { type InquiryAbout, InquiryAnswer } from '@/lib/domain/outside-event.ts'
import { Dialog } from '../../parts/dialog.tsx'
import { Choice, Group } from '../../parts/field.tsx'
import form from '../../parts/form.module.css'
import { FormFoot, faultOf } from '../../parts/form-foot.tsx'
import { TextField } from '../../parts/text-field.tsx'
import { answerBody, type EventDraft, emptyEvent, eventBody, eventFaults } from './draft.ts'
import { EventFields } from './event-fields.tsx'
import { OwnEvents } from './own-events.tsx'
import { afterDeath } from './words.ts'

/** Whose, and whether it answers what is asked, or tells of an event at any time. */
export type Opened = { patientId: string; about: InquiryAbout | null }
type Props = { opened: Opened; onClose: () => void; onDone: (says: string) => void }

/** What became of one patient: the answer to what is asked with its events, or one event. */
export function OutcomeDialog({ opened, onClose, onDone }: Props) {
  const { data, error } = useQuery(outcomePatientQuery(opened.patientId))
  return (
    <Dialog
      wide
      title={data ? `What became of ${data.name}` : 'What became of the patient'}
      about={data ? `${fullDate(data.birthDate)} · ${data.recordNumber}` : null}
      onClose={onClose}
    >
      {data ? (
        <OutcomeForm patient={data} about={opened.about} onClose={onClose} onDone={onDone} />
      ) : (
        <p className={form.form}>{error ? error.message : 'Reading.'}</p>
      )}
    </Dialog>
  )
}

const firstDaysEnd = ({ enrolledAt }: OutcomePatient) => Date.parse(enrolledAt) + INQUIRY_DAYS * 86_400_000

type FormProps = {
  patient: OutcomePatient
  about: InquiryAbout | null
  onClose: () => void
  onDone: (says: string) => void
}

function OutcomeForm({ patient, about, onClose, onDone }: FormProps) {
  const { patientId, name, timeZone, drains } = patient
  // What befell the patient after the first 30 days says nothing of them.
  const isOnRecord = patient.events.some(
    ({ at, withdrawnAt }) =>
      withdrawnAt === null && (about === 'end' || Date.parse(at) <= firstDaysEnd(patient)),
  )
  const [answer, setAnswer] = useState<InquiryAnswer>('events')
  const [note, setNote] = useState('')
  const [events, setEvents] = useState<EventDraft[]>(about === null || !isOnRecord ? [emptyEvent('1')] : [])
  const [isTried, setTried] = useState(false)
  const { send, isSending, fault } = useSend(
    about === null ? eventsDoor(patientId) : inquiryDoor(patientId),
    OutcomeSaved,
    ({ endedFollowUp }) =>
      onDone(
        `${name}: ${about === null ? 'the event is recorded' : answerLabels[answer].toLowerCase()}.${
          endedFollowUp ? ' Follow-up has ended.' : ''
        }`,
      ),
  )
  const asksEvents = about === null || answer === 'events'
  const isEnding = asksEvents && patient.inFollowUp && events.some(({ kind }) => kind === 'death')
  const change = (id: string, part: Partial<EventDraft>) =>
    setEvents((before) => before.map((event) => (event.id === id ? { ...event, ...part } : event)))
  const submit = () => {
    setTried(true)
    if (asksEvents && events.some((event) => Object.keys(eventFaults(event, timeZone)).length > 0)) return
    if (fault?.stored) return
    const [event] = events
    if (about !== null) send(answerBody(about, answer, note, events, timeZone))
    else if (event) send(eventBody(event, timeZone))
  }
  const faultAt = (i: number, event: EventDraft, field: 'kind' | 'at' | 'drain' | 'note') =>
    (isTried && (field === 'kind' || field === 'at') ? eventFaults(event, timeZone)[field] : undefined) ??
    faultOf(fault, about === null ? field : `events[${i}].${field}`)
  return (
    <form
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        submit()
      }}
    >
      <div className={form.form}>
        {about === null ? null : (
          <Group legend={`${inquiryLabels[about]}: what became of the patient outside our calls?`}>
            {InquiryAnswer.options.map((one) => (
              <Choice
                key={one}
                type="radio"
                name="answer"
                checked={answer === one}
                onChange={() => setAnswer(one)}
              >
                {answerLabels[one]}
              </Choice>
            ))}
          </Group>
        )}
        <OwnEvents patient={patient} />
        {asksEvents
          ? events.map((event, i) => (
              <EventFields
                key={event.id}
                legend={events.length > 1 ? `Event ${i + 1}` : 'Event'}
                event={event}
                drains={drains}
                zone={timeZone}
                fault={(field) => faultAt(i, event, field)}
                onChange={(part) => change(event.id, part)}
              />
            ))
          : null}
        {about !== null && answer === 'events' ? (
          <p>
            <button
              type="button"
              onClick={() => setEvents([...events, emptyEvent(String(events.length + 1))])}
            >
              {events.length > 0 ? 'One more event' : 'Add an event'}
            </button>
          </p>
        ) : null}
        <p role="status" className={isEnding ? form.fault : undefined}>
          {isEnding ? `A death ends follow-up of ${name}. ${afterDeath}` : ''}
        </p>
        {about === null ? (
          <p className={form.hint}>
            This is kept for the audit and moves no flag. What was done to a drain that is in place now,
            record as an event on the patient’s page, too.
          </p>
        ) : (
          <TextField
            label="Note on the answer"
            size={50}
            maxLength={2000}
            value={note}
            onChange={setNote}
            fault={faultOf(fault, 'note')}
          />
        )}
      </div>
      <FormFoot
        main={`${about === null ? 'Record the event' : 'Store the answer'}${isEnding ? ' and end follow-up' : ''}`}
        isSending={isSending}
        fault={fault}
        shown={['kind', 'at', 'drain', 'note', 'events']}
        onClose={onClose}
      />
    </form>
  )
}
