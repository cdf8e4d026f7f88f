import { applyCall } from '../../assessment/flag-call.ts'
import { isPressing, moveFlags, stands } from '../../assessment/flag-life.ts'
import type { Assessment } from '../../domain/assessment.ts'
import type { PatientRecord, StaffEvent } from '../../domain/record.ts'
import type { RuleSet } from '../../domain/ruleset.ts'
import { urgencyRank, usualCourse } from '../../domain/words.ts'
import { assess } from '../../rules/assess.ts'
import { type Intervention, randomFor, type SimulatedPatient, simulatePatient } from '../../simulate/index.ts'
import { placeInTime } from '../../simulate/place-in-time.ts'
import type { KeptFlag } from '../../store/flags.ts'
import { isRight, OUTPUT_CODES } from './matching.ts'
import { type ClinicClock, callTime, clinicClock, learns, policy } from './nurse.ts'
import type { Task } from './panels.ts'
import { RowDays } from './row-days.ts'
import { Sightings } from './sightings.ts'
import { isSteady, simpleWays } from './simple-ways.ts'
import { emptyTally, type Tally } from './tally.ts'

export const START = '2026-03-02T17:00:00Z'
const ZONE = 'America/Denver'
const DAY_MS = 24 * 3_600_000
const iso = (ms: number) => new Date(ms).toISOString()

/**
 * Follows one simulated patient with the rules and the nurse, from receipt to receipt, from one instant at
 * which time alone changes something to the next, and from call to call. What a call finds is helped, so
 * the patient's future depends on it; everything before it does not.
 */
export function followPatient(task: Task, days: number, rules: RuleSet): Tally {
  return new Follow(task, days, rules).run()
}

class Follow {
  private readonly tally: Tally
  private readonly startMs = Date.parse(START)
  private readonly endMs: number
  private readonly clock: ClinicClock
  private readonly alone: SimulatedPatient
  private readonly interventions: Intervention[] = []
  private readonly phoneIns: number[] = []
  private readonly closings: StaffEvent[] = []
  private readonly chance
  private patient: SimulatedPatient
  private living: KeptFlag[] = []
  private reports = 0
  private ids = 0
  private attempts = 0
  private notBefore = 0
  private readonly sightings: Sightings
  private readonly rowDays: RowDays

  constructor(
    private readonly task: Task,
    private readonly days: number,
    private readonly rules: RuleSet,
  ) {
    this.tally = emptyTally(task)
    this.endMs = this.startMs + days * DAY_MS
    this.clock = clinicClock(placeInTime(START, ZONE), this.startMs, days)
    this.sightings = new Sightings(this.tally)
    this.rowDays = new RowDays(this.tally, this.clock)
    this.chance = randomFor(task.seed, 'nurse')
    this.alone = this.simulate()
    this.patient = this.alone
  }

  private simulate(events: 'drawn' | 'none' = this.task.eventFree ? 'none' : 'drawn'): SimulatedPatient {
    const { seed, adherence } = this.task
    return simulatePatient(seed, {
      start: START,
      days: this.days,
      timeZone: ZONE,
      adherence,
      events,
      interventions: this.interventions,
      reportAtHours: this.phoneIns,
    })
  }

  /** The same patient to whom nothing happens and whom nobody calls; simulated only where something did happen. */
  private spared(): SimulatedPatient {
    if (this.alone.truth.events.length === 0) return this.alone
    this.interventions.length = 0
    this.phoneIns.length = 0
    return this.simulate('none')
  }

  run(): Tally {
    let next = this.startMs
    for (let now = this.startMs; now < this.stop; ) {
      const assessment = this.assessAt(now)
      this.move(assessment, now)
      this.sightings.look(this.living, this.patient, assessment, this.patient.reports[this.reports - 1], now)
      next = assessment.nextCheckAt ? Date.parse(assessment.nextCheckAt) : Number.POSITIVE_INFINITY
      const then = Math.max(
        now + 1,
        Math.min(this.nextNews(now), next, this.lookAgain(now), this.callDue(now)),
      )
      this.rowDays.count(this.living, this.patient, now, Math.min(then, this.stop))
      now = then
      if (now < this.stop && this.callDue(now - 1) <= now) this.call(now)
    }
    return this.close()
  }

  private get stop(): number {
    return Math.min(
      this.endMs,
      this.patient.leftAt ? Date.parse(this.patient.leftAt) : Number.POSITIVE_INFINITY,
    )
  }

  private assessAt(now: number): Assessment {
    const { reports, staffEvents, enrolment } = this.patient
    while (this.reports < reports.length && Date.parse(reports[this.reports]?.receivedAt ?? '') <= now)
      this.reports++
    const record: PatientRecord = {
      ...enrolment,
      reports: reports.slice(0, this.reports),
      staffEvents: [...staffEvents.filter((event) => Date.parse(event.at) <= now), ...this.closings],
    }
    this.tally.assessments++
    return assess(record, this.rules, iso(now))
  }

  private nextNews(now: number): number {
    const report = this.patient.reports[this.reports]
    const event = this.patient.staffEvents.find(({ at }) => Date.parse(at) > now)
    return Math.min(
      report ? Date.parse(report.receivedAt) : Number.POSITIVE_INFINITY,
      event ? Date.parse(event.at) : Number.POSITIVE_INFINITY,
    )
  }

  private lookAgain(now: number): number {
    const times = this.living.flatMap(({ state, lookAgainAt }) =>
      state === 'closed' && lookAgainAt ? [Date.parse(lookAgainAt)] : [],
    )
    return Math.min(...times.filter((time) => time > now), Number.POSITIVE_INFINITY)
  }

  /** Moves the flags as the clinic's own worklist would, and judges each that opens. */
  private move(assessment: Assessment, now: number): void {
    const { flags, steps } = moveFlags('p', this.living, assessment.findings, iso(now), () =>
      String(++this.ids),
    )
    const moved = new Map([...this.living, ...flags].map((flag) => [flag.id, flag]))
    this.living = [...moved.values()].filter(
      (flag) => stands(flag) || (flag.state === 'closed' && (flag.holdsStill || flag.lookAgainAt !== null)),
    )
    for (const step of steps) {
      const flag = moved.get(step.flagId)
      const opens =
        step.kind === 'opened' || (step.kind === 'returned' && !step.why.startsWith('The time to look again'))
      if (!flag || !opens) continue
      const right = isRight(flag.finding, this.patient, now)
      const count = this.tally.flags[flag.code] ?? { opened: 0, right: 0 }
      this.tally.flags[flag.code] = count
      count.opened++
      if (right) count.right++
      else if (OUTPUT_CODES.includes(flag.code) && isSteady(this.patient, flag.drain))
        this.tally.outputFalse++
    }
  }

  private callDue(now: number): number {
    const due = this.living.filter(stands).map((flag) => callTime(flag, this.clock))
    return Math.max(Math.min(...due, Number.POSITIVE_INFINITY), this.notBefore, now + 1)
  }

  private call(now: number): void {
    const standing = this.living.filter(stands)
    const most = standing.reduce<KeptFlag | null>(
      (a, b) => (a && urgencyRank[a.urgency] >= urgencyRank[b.urgency] ? a : b),
      null,
    )
    if (!most) return
    this.tally.calls++
    const hour = this.clock.next(7.5, now) < this.clock.next(17, now)
    if (hour) this.tally.callsAtNight++
    const helper = this.attempts + 1 >= policy.attemptsUntilHelper
    if (!this.chance.chance(policy.reached) && !helper) {
      this.tally.minutes += policy.minutesNotReached
      this.attempts++
      this.notBefore = now + policy.retryMinutes[most.urgency] * 60_000
      return
    }
    this.tally.minutes += policy.minutesReached
    this.attempts = 0
    this.notBefore = 0
    this.closeAll(standing, now)
    this.help(standing, now)
  }

  private closeAll(standing: readonly KeptFlag[], now: number): void {
    const pressing = standing.some((flag) => flag.state === 'open' && isPressing(flag.urgency))
    const again = this.clock.next(policy.lookAgainAt, now + 12 * 3_600_000)
    const lookAgainAt = pressing ? iso(again) : null
    const { flags } = applyCall(this.living, {
      at: iso(now),
      by: 'nurse',
      closes: standing.map(({ id }) => id),
      lookAgainAt,
      why: '',
    })
    const moved = new Map([...this.living, ...flags].map((flag) => [flag.id, flag]))
    this.living = [...moved.values()].map((flag) =>
      flag.state === 'closed' && !isPressing(flag.urgency) ? { ...flag, lookAgainAt: null } : flag,
    )
    for (const { code, drain } of standing)
      this.closings.push({ at: iso(now), drain, type: 'flag-closed', code })
  }

  private help(standing: readonly KeptFlag[], now: number): void {
    const learnt = this.patient.truth.events.filter((event) => learns(event, standing, now))
    const logMissed = standing.some(({ code }) => code === 'log-missed')
    if (learnt.length === 0 && !logMissed) return
    for (const { drain, type } of learnt) this.interventions.push({ at: iso(now), drain, type })
    if (logMissed) this.phoneIns.push((now - this.startMs) / 3_600_000)
    this.patient = this.simulate()
  }

  private close(): Tally {
    const { tally, patient } = this
    tally.days = (this.stop - this.startMs) / DAY_MS
    tally.steadyDrainDays =
      patient.enrolment.drains.filter(({ kind }) => usualCourse[kind] === 'steady').length * tally.days
    tally.events.push(...this.sightings.events(patient, this.stop))
    tally.ways = simpleWays(this.alone, this.spared())
    return tally
  }
}
