import { z } from 'zod'
import type { QuietHours } from './clinic-hours.ts'
import type { DueLog } from './due-logs.ts'
import { Instant } from './instant.ts'
import { instantOf, localDate } from './local-time.ts'
import type { Reminders } from './profile.ts'
import { freeWithin, isQuiet, lastFree, nextFree } from './quiet-hours.ts'

/** `due`: on the day on which a log falls due, at the patient's hour. `missed`: after it was due, before a nurse is troubled. */
export const ReminderKind = z.enum(['due', 'missed'])
export type ReminderKind = z.infer<typeof ReminderKind>

/** A reminder that was given, for a log that was due then. */
export const GivenReminder = z.object({ kind: ReminderKind, dueAt: Instant, recordedAt: Instant })
export type GivenReminder = z.infer<typeof GivenReminder>

export type ReminderCase = {
  reminders: Reminders
  followUpEnded: boolean
  /** The patient's. */
  zone: string
  quiet: QuietHours
  /** Of every drain in the patient, as dueLogs gives them. */
  logs: readonly DueLog[]
  /** Receipt of the newest report, whatever it says; minus infinity where none has come. */
  heardMs: number
  given: readonly GivenReminder[]
  nowMs: number
}

/** What is to be given now, and until when it is worth sending; and when to look again. */
export type ReminderPlan = {
  due: { kind: ReminderKind; dueMs: number; untilMs: number } | null
  nextMs: number | null
}

const HOUR_MS = 3_600_000
/** So late a reminder still goes out where the server could not give it at its time; later it would come at no hour of the patient's. */
const LATE_MS = HOUR_MS
/** So long one that waits in the outbox is still worth sending. */
const WORTH_MS = 4 * HOUR_MS
/** Between the reminder of the day and the one after a miss. */
const APART_MS = 2 * HOUR_MS
/** Nobody is reminded within this part of the interval of a report. */
const RECENT_PART = 1 / 3

type Step = { kind: ReminderKind; dueMs: number; atMs: number; untilMs: number; worthMs: number }

/**
 * Which reminder is due now, and when the next one may be. At most one of each kind per due log and local day,
 * for all drains together; none within the clinic's quiet hours by the patient's clock, none soon after a
 * report, none once follow-up has ended. The same question has the same answer, so that it may be asked at any time.
 */
export function planReminders(asked: ReminderCase): ReminderPlan {
  const { reminders, followUpEnded, logs, quiet, zone, nowMs } = asked
  if (followUpEnded || reminders.channel === 'none') return { due: null, nextMs: null }
  const steps = logs
    .flatMap((log) => stepsOf(log, asked))
    .filter((step) => step.untilMs >= nowMs && !isCovered(step, asked))
  const isFree = !isQuiet(nowMs, quiet, zone)
  const ripe = steps.filter(({ atMs }) => isFree && atMs <= nowMs)
  // The one after a miss stands for both: two letters in one hour would be one too many.
  const kind = ripe.some((step) => step.kind === 'missed') ? 'missed' : 'due'
  const [first] = ripe.filter((step) => step.kind === kind).toSorted((a, b) => a.dueMs - b.dueMs)
  const ahead = steps.flatMap(({ atMs, untilMs }) => {
    const next = nextFree(Math.max(atMs, nowMs), quiet, zone)
    return next > nowMs && next <= untilMs ? [next] : []
  })
  return {
    due: first ? { kind, dueMs: first.dueMs, untilMs: first.worthMs } : null,
    nextMs: ahead.length > 0 ? Math.min(...ahead) : null,
  }
}

function stepsOf(log: DueLog, asked: ReminderCase): Step[] {
  const day = dayStep(log, asked)
  const missed = missedStep(log, day, asked)
  return [day, missed].filter((step) => step !== null)
}

/** At the patient's hour on the day on which the log falls due; moved to the nearest free minute of that day if the hour is quiet. */
function dayStep(log: DueLog, { reminders, quiet, zone, heardMs }: ReminderCase): Step | null {
  const day = localDate(log.dueMs, zone)
  const hour = instantOf(`${day}T${reminders.at}`, zone)
  if (hour === null) return null
  const hourMs = Date.parse(hour)
  const [atMs] = [nextFree(hourMs, quiet, zone), lastFree(hourMs, quiet, zone)]
    .filter((ms) => localDate(ms, zone) === day)
    .toSorted((a, b) => Math.abs(a - hourMs) - Math.abs(b - hourMs))
  if (atMs === undefined || isRecent(atMs, log, heardMs)) return null
  return { kind: 'due', dueMs: log.dueMs, atMs, untilMs: atMs + LATE_MS, worthMs: atMs + WORTH_MS }
}

/** In the middle of the time between the log's due time and a nurse's, and well after the reminder of the day. */
function missedStep(log: DueLog, day: Step | null, asked: ReminderCase): Step | null {
  const { quiet, zone, given, heardMs } = asked
  const { dueMs, upkeepMs } = log
  if (upkeepMs < dueMs || heardMs >= dueMs) return null
  const date = localDate(dueMs, zone)
  const sent = given.find(({ kind, dueAt }) => kind === 'due' && localDate(dueAt, zone) === date)
  const apartMs = (sent ? Date.parse(sent.recordedAt) : (day?.atMs ?? Number.NEGATIVE_INFINITY)) + APART_MS
  if (sent && apartMs > upkeepMs) return null
  // Where the patient's hour comes too late to tell a miss apart from it, the one after the miss comes first and alone.
  const fromMs = apartMs <= upkeepMs ? Math.max(dueMs, apartMs) : dueMs
  const atMs = freeWithin([fromMs, upkeepMs], dueMs + (upkeepMs - dueMs) / 2, quiet, zone)
  if (atMs === null || isRecent(atMs, log, heardMs)) return null
  const untilMs = Math.max(upkeepMs, atMs + LATE_MS)
  return { kind: 'missed', dueMs, atMs, untilMs, worthMs: untilMs }
}

const isRecent = (atMs: number, { sinceMs, dueMs }: DueLog, heardMs: number) =>
  atMs - Math.max(heardMs, sinceMs) < (dueMs - sinceMs) * RECENT_PART

function isCovered(step: Step, { given, zone }: ReminderCase): boolean {
  const date = (ms: number) => localDate(ms, zone)
  return given.some(({ kind, dueAt, recordedAt }) => {
    const givenMs = Date.parse(recordedAt)
    if (kind === 'missed' && givenMs >= step.dueMs) return true
    if (kind !== step.kind) return false
    return kind === 'due'
      ? [Date.parse(dueAt), givenMs].some((ms) => date(ms) === date(step.dueMs))
      : date(givenMs) === date(step.atMs)
  })
}
