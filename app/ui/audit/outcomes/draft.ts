import { instantOf } from '@/lib/domain/local-time.ts'
import type { NewInquiryAnswer } from '@/lib/domain/outcomes-page.ts'
import type { InquiryAbout, InquiryAnswer, OutsideEventKind } from '@/lib/domain/outside-event.ts'

/** One event as it is typed: the time as the patient's zone has it. */
export type EventDraft = { id: string; kind: OutsideEventKind | ''; at: string; drain: string; note: string }

export const emptyEvent = (id: string): EventDraft => ({ id, kind: '', at: '', drain: '', note: '' })

/** What an event lacks, by field. */
export function eventFaults({ kind, at }: EventDraft, zone: string): Partial<Record<'kind' | 'at', string>> {
  return {
    ...(kind === '' ? { kind: 'Choose what happened.' } : {}),
    ...(instantOf(at, zone) === null ? { at: 'Day and time, as well as they are known.' } : {}),
  }
}

/** An event as its door takes it. The draft has no faults. */
export const eventBody = ({ kind, at, drain, note }: EventDraft, zone: string) => ({
  kind: kind as OutsideEventKind,
  at: instantOf(at, zone) ?? '',
  drain: drain || null,
  note: note.trim() || null,
})

export const answerBody = (
  about: InquiryAbout,
  answer: InquiryAnswer,
  note: string,
  events: readonly EventDraft[],
  zone: string,
): NewInquiryAnswer => ({
  about,
  answer,
  note: note.trim() || null,
  ...(answer === 'events' ? { events: events.map((event) => eventBody(event, zone)) } : {}),
})
