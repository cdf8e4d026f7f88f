import type { FlagStepKind } from '../../domain/flag.ts'
import type { LocalDate } from '../../domain/instant.ts'
import { addDays, instantOf } from '../../domain/local-time.ts'
import { weekSpan } from '../../domain/week-page.ts'
import type { Tx } from '../../store/index.ts'
import {
  enrolledBefore,
  flagsOpenedIn,
  followTurns,
  heardIn,
  type OpenedFlag,
  staysIn,
  type Turn,
  turnsOfFlags,
} from '../../store/review-items.ts'
import { grouped, stored } from '../../store/rows.ts'
import { endedSpans, type Stretch } from '../ended-spans.ts'
import type { Candidate, Chance, Frame } from './sample.ts'

const touches = (a: Stretch, b: Stretch) => a.from < b.until && b.from < a.until

/** All that can be drawn of a week: the flags that opened in it, and the days of followed patients without any flag. */
export async function frameOf(
  tx: Tx,
  clinicId: string,
  week: LocalDate,
  zone: string,
  chance: Chance,
): Promise<Frame> {
  const { fromMs, untilMs } = weekSpan(week, zone)
  const [from, until] = [stored(new Date(fromMs)), stored(new Date(untilMs))]
  const { rows: flags } = await flagsOpenedIn(tx, clinicId, from, until)
  const days = await freeDays(tx, clinicId, { week, zone, from, until })
  const of = (isOne: (flag: OpenedFlag) => boolean) => flags.filter(isOne).map(asCandidate)
  return {
    atOnce: of(({ rank }) => rank === 4),
    withinHour: of(({ rank }) => rank === 3),
    clinical: of(({ rank, nature }) => rank < 3 && nature === 'clinical'),
    upkeep: of(({ rank, nature }) => rank < 3 && nature === 'upkeep'),
    heard: days.filter(({ heard }) => heard.length > 0).map((day) => atOneOf(day, chance)),
    silent: days.filter(({ heard }) => heard.length === 0).map((day) => atAnyTime(day, chance)),
  }
}

const asCandidate = ({ id, patientId, drain, openedAt }: OpenedFlag): Candidate => ({
  kind: 'flag',
  patientId,
  drain,
  flagId: id,
  at: openedAt,
})

type FreeDay = { patientId: string; span: Stretch; heard: readonly string[] }

const dayAt = (patientId: string, at: string): Candidate => ({
  kind: 'day',
  patientId,
  drain: null,
  flagId: null,
  at,
})
/** A day on which something was heard is judged when it was: as most flags open with a report. */
const atOneOf = ({ patientId, heard }: FreeDay, chance: Chance) =>
  dayAt(patientId, heard[Math.floor(chance() * heard.length)] ?? '')
const atAnyTime = ({ patientId, span }: FreeDay, chance: Chance) =>
  dayAt(patientId, stored(new Date(span.from + Math.floor(chance() * (span.until - span.from)))))

/** Whole days of the clinic's calendar on which a patient was followed at home and no flag stood at any moment. */
async function freeDays(
  tx: Tx,
  clinicId: string,
  { week, zone, from, until }: { week: LocalDate; zone: string; from: string; until: string },
): Promise<FreeDay[]> {
  const begins = [0, 1, 2, 3, 4, 5, 6, 7].map((n) =>
    Date.parse(instantOf(`${addDays(week, n)}T00:00`, zone) ?? ''),
  )
  const spans = begins
    .slice(0, 7)
    .map((begin, i): Stretch => ({ from: begin, until: begins[i + 1] ?? begin }))
  const patients = (await enrolledBefore(tx, clinicId, until)).rows
  const turns = grouped((await followTurns(tx, clinicId, until)).rows, ({ patientId }) => patientId)
  const stays = grouped((await staysIn(tx, clinicId, from, until)).rows, ({ patientId }) => patientId)
  const heard = grouped((await heardIn(tx, clinicId, from, until)).rows, ({ patientId }) => patientId)
  const flagged = flaggedSpans((await turnsOfFlags(tx, clinicId, from, until)).rows)

  return patients.flatMap(({ id, from: since }) => {
    const away = [
      ...endedSpans(turns.get(id) ?? []),
      ...(stays.get(id) ?? []).map(
        (stay): Stretch => ({
          from: Date.parse(stay.from),
          until: stay.until ? Date.parse(stay.until) : Number.POSITIVE_INFINITY,
        }),
      ),
      ...(flagged.get(id) ?? []),
    ]
    const times = (heard.get(id) ?? []).map(({ at }) => at)
    return spans
      .filter((span) => Date.parse(since) <= span.from && !away.some((one) => touches(one, span)))
      .map((span) => ({
        patientId: id,
        span,
        heard: times.filter((at) => Date.parse(at) >= span.from && Date.parse(at) < span.until),
      }))
  })
}

/** Whether a flag stands after a step; null: the step does not change it. A call that is taken back had closed it. */
const standsAfter: Readonly<Record<FlagStepKind, boolean | null>> = {
  opened: true,
  raised: true,
  owed: true,
  returned: true,
  'held-again': true,
  eased: true,
  undone: true,
  closed: false,
  ended: false,
  corrected: null,
  paused: null,
  resumed: null,
}

/** When any flag of a patient stood, by patient. */
function flaggedSpans(turns: readonly Turn[]): Map<string, Stretch[]> {
  const byPatient = new Map<string, Stretch[]>()
  for (const [, own] of grouped(turns, ({ flagId }) => flagId)) {
    let open: Stretch | null = null
    for (const { patientId, at, kind } of own) {
      const stands = standsAfter[kind]
      if (stands === true && open === null) {
        open = { from: Date.parse(at), until: Number.POSITIVE_INFINITY }
        byPatient.set(patientId, [...(byPatient.get(patientId) ?? []), open])
      }
      if (stands === false && open !== null) {
        // What ended at the first moment of a day stood on it.
        open.until = Date.parse(at) + 1
        open = null
      }
    }
  }
  return byPatient
}
