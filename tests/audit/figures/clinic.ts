import { findingLabels } from '../../../lib/domain/labels.ts'
import type { StaffMember } from '../../../lib/domain/staff.ts'
import { read, write } from '../../../lib/store/index.ts'
import { CLINIC, nurse, patient } from '../../store/clinic.ts'

/*
 * An invented clinic in Denver in March 2026. Its weeks begin on Mondays; the clocks go forward on Sunday 8 March, so that the second week
 * begins an hour earlier in UTC. The rows of flags, calls, verdicts and events are put in as they would lie in the store.
 */
export const PERIOD = { from: '2026-03-02', until: '2026-03-30' }
export const NOW = new Date('2026-04-01T18:00:00.000Z')
export const physician: StaffMember = {
  id: 'physician',
  clinicId: CLINIC,
  name: 'Phil Invented',
  email: 'physician@larkfield.example',
  role: 'physician',
}

let count = 0
const id = (kind: string) => `${kind}-${++count}`

/** An instant of March 2026 by Denver's clock. @example local(9, '12:00') // after the change of the clocks: 18:00 in UTC */
export const local = (day: number, time = '12:00'): string =>
  new Date(`2026-03-${String(day).padStart(2, '0')}T${time}:00${day < 8 ? '-07:00' : '-06:00'}`).toISOString()

/** A patient who is enrolled at the beginning of 2 March in Denver, with one drain. */
export const atHome = (drainChange: object = {}) =>
  patient(-1, { placedAt: '2026-02-01T12:00:00.000Z', ...drainChange })

type Opened = {
  code?: string
  urgency?: string
  drain?: string | null
  actBy?: string
  closedAt?: string
  endedAt?: string
  nature?: string
}

/** A flag that opened, with its first step. */
export async function flag(patientId: string, at: string, more: Opened = {}): Promise<string> {
  const { code = 'leak', urgency = 'within-24h', drain = null, nature = 'clinical' } = more
  const flagId = id('flag')
  const actBy = more.actBy ?? new Date(Date.parse(at) + 24 * 3_600_000).toISOString()
  const finding = {
    code,
    drain,
    nature,
    urgency,
    since: at,
    actBy,
    says: `${findingLabels[code as keyof typeof findingLabels]}.`,
    evidence: [],
    threshold: null,
  }
  await write(async (tx) => {
    await tx.flag.create({
      data: {
        id: flagId,
        clinicId: CLINIC,
        patientId,
        drainId: drain,
        code,
        nature,
        state: more.closedAt ? 'closed' : more.endedAt ? 'ended' : 'open',
        urgency,
        since: at,
        actBy,
        openedAt: at,
        finding: JSON.stringify(finding),
        closedAt: more.closedAt ?? null,
        endedAt: more.endedAt ?? null,
        changedAt: at,
      },
    })
    await step(tx, patientId, flagId, at, 'opened', urgency)
    if (more.endedAt) await step(tx, patientId, flagId, more.endedAt, 'ended', urgency)
  })
  return flagId
}

type Tx = Parameters<Parameters<typeof write>[0]>[0]
const step = (tx: Tx, patientId: string, flagId: string, at: string, kind: string, urgency: string) =>
  tx.flagStep.create({
    data: { id: id('step'), clinicId: CLINIC, patientId, flagId, at, kind, by: null, why: kind, urgency },
  })

/** An attempt to call. */
export const call = (patientId: string, at: string, outcome = 'reached', by = nurse.id) =>
  write((tx) =>
    tx.callback.create({
      data: {
        id: id('call'),
        clinicId: CLINIC,
        patientId,
        at,
        recordedAt: at,
        recordedBy: by,
        outcome,
        agreed: '[]',
        closes: '[]',
        note: '',
      },
    }),
  )

/** What befell a patient outside. */
export const event = (
  patientId: string,
  kind: string,
  at: string,
  drain: string | null = null,
  recordedAt = at,
) =>
  write((tx) =>
    tx.outsideEvent.create({
      data: {
        id: id('event'),
        clinicId: CLINIC,
        patientId,
        drainId: drain,
        kind,
        at,
        source: 'staff',
        recordedAt,
        recordedBy: nurse.id,
      },
    }),
  )

export const answer = (patientId: string, said: string, about = '30-days', recordedAt = local(29)) =>
  write((tx) =>
    tx.inquiryAnswer.create({
      data: {
        id: id('answer'),
        clinicId: CLINIC,
        patientId,
        about,
        answer: said,
        recordedAt,
        recordedBy: nurse.id,
      },
    }),
  )

type Drawn = { flagId?: string; stratum?: string; probability?: number; week?: string }

/** Something that was drawn for a week, with its verdicts in the order of their readings. */
export async function drawn(
  patientId: string,
  verdicts: readonly (string | null)[],
  { flagId, stratum = flagId ? 'rest' : 'day-heard', probability = 1, week = '2026-03-02' }: Drawn = {},
): Promise<void> {
  const itemId = id('item')
  await write(async (tx) => {
    await tx.reviewItem.create({
      data: {
        id: itemId,
        clinicId: CLINIC,
        week,
        kind: flagId ? 'flag' : 'day',
        patientId,
        flagId: flagId ?? null,
        at: local(3),
        stratum,
        probability,
        twice: verdicts.length > 1,
        ordinal: ++count,
        recordedAt: local(9),
        recordedBy: physician.id,
      },
    })
    for (const [i, verdict] of verdicts.entries())
      if (verdict !== null)
        await tx.review.create({
          data: {
            id: id('review'),
            clinicId: CLINIC,
            itemId,
            reading: i + 1,
            verdict,
            harm: 'none',
            recordedAt: local(10 + i),
            recordedBy: physician.id,
          },
        })
  })
}

/** A report that was received, with nothing in it. */
export const heard = (patientId: string, at: string) =>
  write((tx) =>
    tx.report.create({
      data: {
        id: id('report'),
        clinicId: CLINIC,
        patientId,
        receivedAt: at,
        timeZone: 'America/Denver',
        door: 'check-in',
        source: 's',
        reporter: 'patient',
        key: id('key'),
        bodyHash: 'x',
        receiptCode: id('receipt'),
        receipt: '{}',
      },
    }),
  )

/** That a drain came out. */
export const removed = (patientId: string, drainId: string, at: string) =>
  write((tx) =>
    tx.staffEvent.create({
      data: {
        id: id('out'),
        clinicId: CLINIC,
        patientId,
        drainId,
        at,
        recordedAt: at,
        recordedBy: nurse.id,
        type: 'removed',
      },
    }),
  )

/** That follow-up ended, or went on. */
export const turned = (patientId: string, step: 'ended' | 'resumed', recordedAt: string) =>
  write((tx) =>
    tx.followUpStep.create({
      data: {
        id: id('turn'),
        clinicId: CLINIC,
        patientId,
        step,
        reason: 'removed',
        recordedAt,
        recordedBy: nurse.id,
      },
    }),
  )

/** A stay in hospital. */
export const stay = (patientId: string, at: string, endedAt: string) =>
  write((tx) =>
    tx.admission.create({
      data: {
        id: id('stay'),
        clinicId: CLINIC,
        patientId,
        at,
        endedAt,
        endedBy: nurse.id,
        recordedAt: at,
        recordedBy: nurse.id,
      },
    }),
  )

export const accessRecord = () => read((tx) => tx.accessRecord.findMany({ orderBy: { seq: 'asc' } }))
