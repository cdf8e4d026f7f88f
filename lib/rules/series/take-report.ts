import type * as domain from '../../domain/record.ts'
import type { Prepared, PreparedDrain, ReportHead, Stated } from './prepare.ts'

let lastText = ''
let lastMs = 0
/** A report's parts often share one instant: the same text is parsed once. */
export function ms(instant: string): number {
  if (instant !== lastText) {
    lastMs = parsed(instant)
    lastText = instant
  }
  return lastMs
}

const STORED_LENGTH = '2026-03-02T15:05:00.000Z'.length

/**
 * Reading instants is most of what an assessment costs, and nearly all of them stand in the one form in which they
 * are stored: its digits are taken where they stand. Any other form is left to the language. The record's shape has
 * been checked, so each text is an instant.
 */
function parsed(instant: string): number {
  if (instant.length !== STORED_LENGTH || instant.charCodeAt(STORED_LENGTH - 1) !== 90 /* Z */)
    return Date.parse(instant)
  return Date.UTC(
    two(instant, 0) * 100 + two(instant, 2),
    two(instant, 5) - 1,
    two(instant, 8),
    two(instant, 11),
    two(instant, 14),
    two(instant, 17),
    two(instant, 20) * 10 + digit(instant, 22),
  )
}

const digit = (text: string, at: number) => text.charCodeAt(at) - 48
const two = (text: string, at: number) => digit(text, at) * 10 + digit(text, at + 1)

/** Puts what one report says on the list of each question; `tolerance` in ms is how far a clock may be ahead. */
export function takeReport(
  report: domain.Report,
  head: ReportHead,
  tolerance: number,
  prepared: Prepared,
  drains: ReadonlyMap<string, PreparedDrain>,
) {
  for (const reading of report.readings ?? []) {
    const drain = drains.get(reading.drain)
    const at = ms(reading.at)
    state(head, tolerance, drain?.readings, at, { volumeMl: reading.volumeMl, total: reading.total ?? false })
    state(head, tolerance, drain?.appearances, at, reading.appearance)
  }
  for (const flush of report.flushes ?? []) {
    const drain = drains.get(flush.drain)
    const at = ms(flush.at)
    drain?.flushes.push({
      value: flush.volumeMl ?? null,
      at,
      when: at,
      receivedAt: head.receivedAt,
      report: head,
    })
    state(head, tolerance, drain?.eases, at, flush.ease)
  }
  for (const dressing of report.dressings ?? []) {
    const drain = drains.get(dressing.drain)
    const at = ms(dressing.at)
    const changed = dressing.changed ?? false
    state(head, tolerance, drain?.found, at, dressing.found && { found: dressing.found, changed })
    if (changed) state(head, tolerance, drain?.changes, at, true as const)
    state(head, tolerance, drain?.skins, at, dressing.skin)
  }
  const symptoms = report.symptoms
  if (!symptoms) return
  const at = ms(symptoms.at)
  state(head, tolerance, prepared.temperatures, at, symptoms.temperatureC)
  state(head, tolerance, prepared.chills, at, symptoms.chills)
  state(head, tolerance, prepared.pains, at, symptoms.pain)
  state(head, tolerance, prepared.generals, at, symptoms.general)
  for (const item of symptoms.drains ?? []) {
    const drain = drains.get(item.drain)
    state(head, tolerance, drain?.positions, at, item.position)
    state(head, tolerance, drain?.leaks, at, item.leak)
    state(head, tolerance, drain?.drainings, at, item.draining)
  }
}

/** Adds a statement to the list of its question; what was not answered is no statement. */
function state<T>(
  head: ReportHead,
  tolerance: number,
  list: Stated<T>[] | undefined,
  at: number,
  value: T | null | undefined,
): void {
  if (value == null || !list) return
  const when = at > head.receivedAt + tolerance ? head.receivedAt : at
  list.push({ value, at, when, receivedAt: head.receivedAt, report: head })
}
