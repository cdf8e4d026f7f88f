import { standingCalls } from '@/lib/domain/callback.ts'
import {
  agreedLabels,
  easeLabels,
  eventLabels,
  findingLabels,
  foundLabels,
  outcomeLabels,
  positionLabels,
  skinLabels,
  urgencyLabels,
} from '@/lib/domain/labels.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { standingReports } from '@/lib/domain/standing-reports.ts'
import type { Urgency } from '@/lib/domain/words.ts'
import { type Axis, isShown, xOf } from './axis.ts'

/** A point on a track. `says` is what a pointer shows; `label` stands beside the point where it is not as it should be. */
export type Point = {
  x: number
  at: string
  value: number | null
  tone: 'plain' | 'alarm' | 'staff'
  label: string
  says: string
}
export type FlagBar = { from: number; to: number; urgency: Urgency; lane: number; says: string }
export type Tracks = {
  flush: Point[]
  dressing: Point[]
  temperature: Point[]
  pain: Point[]
  position: Point[]
  events: Point[]
  calls: Point[]
  flags: FlagBar[]
}

/** Everything that happened beside the output, placed on the chart's axis. Corrected reports count as corrected. */
export function tracksOf(page: PatientPage, axis: Axis, now: number): Tracks {
  const { feverC } = page.limits
  const reports = standingReports(page.record.reports)
  const several = page.record.drains.length > 1
  const whose = (drain: string) => (several ? `${page.labels[drain]?.label ?? drain}: ` : '')
  const say = (at: string, text: string) => `${dayAndTime(at, axis.zone)} · ${text}`
  const point = (at: string, text: string, rest: Partial<Point> = {}): Point => ({
    x: xOf(axis, at),
    at,
    value: null,
    tone: 'plain',
    label: '',
    says: say(at, text),
    ...rest,
  })
  const alarm = (text: string): Partial<Point> => ({ tone: 'alarm', label: text })
  const seen = (points: Point[]) => points.filter(({ x }) => isShown(axis, x)).toSorted((a, b) => a.x - b.x)
  const symptoms = reports.flatMap((report) => (report.symptoms ? [report.symptoms] : []))

  return {
    flush: seen(
      reports
        .flatMap(({ flushes }) => flushes ?? [])
        .map(({ at, drain, volumeMl, ease }) =>
          point(
            at,
            `${whose(drain)}flush${volumeMl == null ? '' : ` ${volumeMl} mL`}${ease ? `, ${easeLabels[ease]}` : ''}`,
            ease && ease !== 'easy' ? alarm(easeLabels[ease]) : {},
          ),
        ),
    ),
    dressing: seen(
      reports
        .flatMap(({ dressings }) => dressings ?? [])
        .map(({ at, drain, found, skin, changed }) => {
          const bad = [
            found && found !== 'clean' ? foundLabels[found] : '',
            skin && skin !== 'intact' ? `skin ${skinLabels[skin]}` : '',
          ]
          const text = bad.filter(Boolean).join(', ')
          const done =
            changed === false ? 'dressing not changed' : changed ? 'dressing changed' : 'dressing seen'
          return point(at, `${whose(drain)}${done}${text ? `, ${text}` : ''}`, text ? alarm(text) : {})
        }),
    ),
    temperature: seen(
      symptoms.flatMap(({ at, temperatureC, chills }) =>
        temperatureC == null
          ? []
          : [
              point(at, `${temperatureC} °C${chills ? ', chills' : ''}`, {
                value: temperatureC,
                ...(temperatureC >= feverC ? alarm(String(temperatureC)) : {}),
              }),
            ],
      ),
    ),
    pain: seen(
      symptoms.flatMap(({ at, pain }) =>
        pain == null
          ? []
          : [point(at, `pain ${pain} of 10`, { value: pain, ...(pain >= 4 ? { label: String(pain) } : {}) })],
      ),
    ),
    position: seen(
      symptoms.flatMap(({ at, drains }) =>
        (drains ?? []).flatMap(({ drain, position, leak }) => {
          const wrong = [
            position && position !== 'in-place' ? positionLabels[position] : '',
            leak ? 'leak' : '',
          ]
            .filter(Boolean)
            .join(', ')
          if (!position && leak == null) return []
          return [
            point(at, `${whose(drain)}${wrong || positionLabels['in-place']}`, wrong ? alarm(wrong) : {}),
          ]
        }),
      ),
    ),
    events: seen(
      page.record.staffEvents
        .filter(({ type }) => type !== 'flag-closed')
        .map(({ at, drain, type }) =>
          point(at, `${drain ? whose(drain) : ''}${eventLabels[type].toLowerCase()}`, {
            tone: 'staff',
            label: eventLabels[type].toLowerCase(),
          }),
        ),
    ),
    calls: seen(
      standingCalls(page.callbacks).map(({ at, by, outcome, agreed }) =>
        point(
          at,
          `${by}: ${[outcomeLabels[outcome], ...agreed.map((one) => agreedLabels[one])].join(', ').toLowerCase()}`,
          {
            tone: 'staff',
            label: `${by}, ${outcomeLabels[outcome].toLowerCase()}`,
          },
        ),
      ),
    ),
    flags: flagBars(page, axis, now),
  }
}

/** Flags as bars from their opening to their end, in as many lanes as overlap. */
export function flagBars(
  { flags, steps }: Pick<PatientPage, 'flags' | 'steps'>,
  axis: Axis,
  now: number,
): FlagBar[] {
  const endOf = (id: string, closedAt: string | null) => {
    const ended = steps.findLast(({ flagId, kind }) => flagId === id && kind === 'ended')
    return closedAt ?? ended?.at ?? null
  }
  const bars = flags
    .filter(({ nature }) => nature === 'clinical')
    .map((flag) => {
      const stands = flag.state === 'open' || flag.state === 'owed'
      const until = stands ? null : endOf(flag.id, flag.closedAt)
      const says = `${findingLabels[flag.code]}, ${urgencyLabels[flag.urgency].toLowerCase()}: ${dayAndTime(flag.openedAt, axis.zone)} to ${until ? dayAndTime(until, axis.zone) : 'now'}`
      return {
        from: Math.max(0, xOf(axis, flag.openedAt)),
        to: xOf(axis, until ?? now),
        urgency: flag.urgency,
        says,
      }
    })
    .filter(({ to }) => to >= 0)
    .toSorted((a, b) => a.from - b.from || b.to - a.to)
  const ends: number[] = []
  return bars.map((bar) => {
    const free = ends.findIndex((end) => end < bar.from)
    const lane = free < 0 ? ends.length : free
    ends[lane] = bar.to
    return { ...bar, lane }
  })
}
