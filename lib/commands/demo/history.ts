import { randomUUID } from 'node:crypto'
import { stands } from '../../assessment/flag-life.ts'
import { reassess } from '../../assessment/reassess.ts'
import type { Report } from '../../domain/record.ts'
import type { StaffMember } from '../../domain/staff.ts'
import type { Submission } from '../../domain/submission.ts'
import { noteDischarges, putOnList } from '../../intake/discharges.ts'
import { enrolWithin } from '../../intake/enrol.ts'
import { issueLink } from '../../intake/index.ts'
import { receiveReportWithin } from '../../intake/receive-report.ts'
import { bookVisitWithin } from '../../intake/visits.ts'
import { DEMO_CLINIC, type DemoPatient } from '../../simulate/demo/scenario.ts'
import { demoDischarges } from '../../simulate/demo/waiting.ts'
import { randomFor } from '../../simulate/random.ts'
import { drainsOf } from '../../store/drains.ts'
import { type KeptFlag, livingFlagsOf } from '../../store/flags.ts'
import type { Tx } from '../../store/index.ts'
import { duePatients } from '../../store/patient-states.ts'
import { stored } from '../../store/rows.ts'
import { recordCallback } from '../../worklist/index.ts'
import { recordCallbackWithin } from '../../worklist/record-callback.ts'
import { recordStaffEventWithin } from '../../worklist/record-staff-event.ts'
import { type ClinicClock, callTime, policy } from '../evaluate/nurse.ts'
import { Agenda } from './agenda.ts'
import { planAudit } from './audit.ts'
import { reached } from './conversation.ts'
import type { SIGN_INS } from './sign-ins.ts'

export type Staff = Readonly<Record<keyof typeof SIGN_INS, StaffMember>>

/** One patient on the way into the store. */
type Entry = {
  readonly demo: DemoPatient
  readonly index: number
  patientId: string
  link: string
  readonly drains: Map<string, string>
  readonly reports: Map<string, string>
  /** Number of the call that is planned; an older one that comes up is out of date. */
  plan: number
  attempts: number
  /** When nobody was reached, in ms since the epoch; null: the last call reached somebody. */
  triedAt: number | null
}

/** Before it is tried again, in minutes. */
const RETRY_MINUTES = 45
const MINUTE_MS = 60_000
/** Reports come on the minute. What staff does falls between, so that no two things of one patient share an instant. */
const EVENT_AFTER_MS = 15_000
const CALL_AFTER_MS = 30_000

/**
 * Walks through all that happened, in the order of time, sweeps the patients whom time alone makes due, and lets the
 * nurses call about what stands: the flags are those that the live assessment would have kept.
 */
export class History {
  private readonly agenda: Agenda
  private readonly entries: Entry[]
  readonly total: number
  done = 0

  constructor(
    private readonly staff: Staff,
    private readonly clock: ClinicClock,
    private readonly endsAt: Date,
    patients: readonly DemoPatient[],
  ) {
    this.agenda = new Agenda(endsAt.getTime())
    this.entries = patients.map((demo, index) => ({
      demo,
      index,
      patientId: '',
      link: '',
      drains: new Map(),
      reports: new Map(),
      plan: 0,
      attempts: 0,
      triedAt: null,
    }))
    for (const entry of this.entries) {
      const { enrolment, reports, staffEvents } = entry.demo.simulated
      const { exchangeAskedAt } = entry.demo
      if (exchangeAskedAt)
        this.agenda.add(Date.parse(exchangeAskedAt), (tx, now) => this.askForExchange(tx, entry, now))
      this.agenda.add(Date.parse(enrolment.enrolledAt), (tx, now) => this.enrol(tx, entry, now))
      reports.forEach((report, i) => {
        this.agenda.add(Date.parse(report.receivedAt), (tx, now) =>
          this.report(tx, entry, report, i === reports.length - 1, now),
        )
      })
      for (const { at, drain, type } of staffEvents) {
        if (type === 'flag-closed' || !drain) continue
        this.agenda.add(Date.parse(at) + EVENT_AFTER_MS, async (tx, now) => {
          await recordStaffEventWithin(
            tx,
            this.staff.physician,
            entry.patientId,
            { at: stored(now), drain: entry.drains.get(drain), type },
            now,
          )
          await this.planCall(tx, entry, now)
        })
      }
    }
    for (const { at, ...discharge } of demoDischarges(endsAt.toISOString(), DEMO_CLINIC.timeZone))
      this.agenda.add(Date.parse(at), async (tx, now) => {
        const id = await putOnList(tx, this.staff.coordinator, discharge, now)
        await noteDischarges(tx, this.staff.coordinator, now, `put on the list of discharges: ${id}`)
      })
    planAudit(this.agenda, { ...this.staff, patients: this.entries }, endsAt)
    this.total = this.agenda.size
  }

  get left(): number {
    return this.agenda.size
  }

  /** Does what comes next, of which whoever is due before it is swept; false: all is done. */
  async next(tx: Tx): Promise<boolean> {
    const until = this.agenda.nextAt === null ? this.endsAt.getTime() : this.agenda.nextAt - 1
    const [due] = await duePatients(tx, new Date(until), 1)
    if (due) {
      await this.sweep(tx, due.patientId, new Date(due.nextCheckAt))
      return true
    }
    const item = this.agenda.take()
    if (!item) return false
    await item.run(tx, new Date(item.at))
    this.done++
    return true
  }

  /** Assesses a patient as of the instant at which they are due, as the server's sweep does some seconds later. */
  private async sweep(tx: Tx, patientId: string, now: Date): Promise<void> {
    await reassess(tx, patientId, now)
    const entry = this.entries.find((one) => one.patientId === patientId)
    if (entry) await this.planCall(tx, entry, now)
  }

  private async enrol(tx: Tx, entry: Entry, now: Date): Promise<void> {
    const { person, drains, simulated } = entry.demo
    const { timeZone, usual } = simulated.enrolment
    const body = { ...person, timeZone, usual, enrolledAt: stored(now), drains: [...drains] }
    const { patientId, link } = await enrolWithin(tx, this.staff.coordinator, body, now)
    Object.assign(entry, { patientId, link })
    const kept = await drainsOf(tx, patientId, stored(now))
    kept.rows
      .toSorted((a, b) => a.ordinal - b.ordinal)
      .forEach(({ id }, i) => {
        entry.drains.set(simulated.enrolment.drains[i]?.id ?? '', id)
      })
  }

  /** The exchange of the first drain is asked for; which day is still to come. */
  private async askForExchange(tx: Tx, { patientId, drains }: Entry, now: Date): Promise<void> {
    const [drain] = drains.values()
    if (!drain) return
    const why = 'asked of the angiography suite'
    const step = { drain, kind: 'exchange' as const, state: 'requested' as const, why }
    await bookVisitWithin(tx, this.staff.coordinator, patientId, step, now)
  }

  private async report(tx: Tx, entry: Entry, report: Report, isLast: boolean, now: Date): Promise<void> {
    const { patientId, demo, index } = entry
    const drain = <T extends { drain: string }>(part: T): T => ({
      ...part,
      drain: entry.drains.get(part.drain) ?? part.drain,
    })
    const body: Submission = {
      reporter: index % 5 === 3 ? 'helper' : 'patient',
      readings: report.readings?.map(drain),
      flushes: report.flushes?.map(drain),
      dressings: report.dressings?.map(drain),
      symptoms: report.symptoms ? { ...report.symptoms, drains: report.symptoms.drains?.map(drain) } : null,
      supersedes: report.supersedes ? (entry.reports.get(report.supersedes) ?? null) : null,
      note: isLast ? demo.lastNote : null,
    }
    const incoming = {
      clinicId: this.staff.nurse.clinicId,
      patientId,
      door: 'check-in' as const,
      source: patientId,
      by: null,
      key: `demo-${report.id}`,
      body,
    }
    const { receipt } = await receiveReportWithin(tx, incoming, now)
    entry.reports.set(report.id, receipt.report)
    await this.planCall(tx, entry, now)
  }

  /** Plans the next call about what stands now, unless it belongs to what is left for whoever opens the worklist. */
  private async planCall(tx: Tx, entry: Entry, now: Date): Promise<void> {
    const plan = ++entry.plan
    const standing = await this.toCallAbout(tx, entry)
    const from = Math.max(
      Math.min(...standing.map((flag) => callTime(flag, this.clock))),
      now.getTime() + MINUTE_MS,
      entry.triedAt === null ? 0 : entry.triedAt + RETRY_MINUTES * MINUTE_MS,
    )
    const at = Math.floor(from / MINUTE_MS) * MINUTE_MS + CALL_AFTER_MS
    const until = Date.parse(entry.demo.openFrom ?? this.endsAt.toISOString()) - MINUTE_MS
    if (at < until)
      this.agenda.add(at, (call, when) =>
        plan === entry.plan ? this.call(call, entry, when) : Promise.resolve(),
      )
  }

  /** What stands, without an exchange that is to wait for its day. */
  private async toCallAbout(tx: Tx, { patientId, demo }: Entry): Promise<KeptFlag[]> {
    const waits = demo.exchangeAskedAt !== null
    const { rows } = await livingFlagsOf(tx, patientId)
    return rows.filter((flag) => stands(flag) && !(waits && flag.code === 'exchange-due'))
  }

  private async call(tx: Tx, entry: Entry, now: Date): Promise<void> {
    const standing = await this.toCallAbout(tx, entry)
    if (standing.length === 0) return
    const random = randomFor(entry.index, 'demo-call', now.getTime())
    const nurse = random.chance(0.6) ? this.staff.nurse : this.staff.secondNurse
    if (entry.attempts < policy.attemptsUntilHelper - 1 && !random.chance(policy.reached)) {
      entry.attempts++
      entry.triedAt = now.getTime()
      await recordCallbackWithin(
        tx,
        nurse,
        entry.patientId,
        { outcome: random.chance(0.7) ? 'no-answer' : 'left-message' },
        now,
      )
      return this.planCall(tx, entry, now)
    }
    entry.attempts = 0
    entry.triedAt = null
    const again = this.clock.next(policy.lookAgainAt, now.getTime() + 6 * 3_600_000)
    const { interpreter } = entry.demo.person
    const spokenTo = interpreter || random.chance(0.8) ? 'patient' : 'helper'
    const body = reached(standing, spokenTo, interpreter, new Date(again).toISOString())
    await recordCallbackWithin(tx, nurse, entry.patientId, body, now)
  }

  /** Leaves one call that reached nobody on the list. */
  async finish(): Promise<void> {
    const silent = this.entries.find(({ demo }) => demo.simulated.truth.course === 'silent')
    if (silent)
      await recordCallback(
        this.staff.secondNurse,
        silent.patientId,
        { outcome: 'no-answer', note: 'Rang twice, no voicemail.' },
        randomUUID(),
        this.endsAt,
      )
  }

  /** The personal link of a patient with whom nothing is the matter. */
  async link(): Promise<string> {
    const entry = this.entries.find(
      ({ demo }) =>
        demo.openFrom === null &&
        demo.drains[0]?.kind === 'nephrostomy' &&
        demo.simulated.truth.course === 'steady',
    )
    if (!entry) throw new Error('demo: no steady patient in the scenario')
    return (await issueLink(this.staff.coordinator, entry.patientId, this.endsAt)).link
  }
}
