import { type AskedAnswer, standingCalls } from '@/lib/domain/callback.ts'
import {
  agreedLabels,
  appearanceLabels,
  easeLabels,
  foundLabels,
  generalLabels,
  outcomeLabels,
  positionLabels,
  skinLabels,
} from '@/lib/domain/labels.ts'
import { localParts } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import { standingReports } from '@/lib/domain/standing-reports.ts'
import type { Appearance } from '@/lib/domain/words.ts'
import { careEvents } from './care-events.ts'
import { type FlagSpan, flagSpans } from './flag-spans.ts'

/**
 * Something that happened, by the patient's own calendar. `text` says it; `label` stands beside its mark where it is
 * not as it should be. `lane` is the place of its drain, where there are several.
 */
export type Happening = {
  date: string
  /** Share of the day that had passed, by the clock. */
  part: number
  time: string
  value: number | null
  tone: 'plain' | 'alarm' | 'staff'
  label: string
  text: string
  lane: number | null
}

export const TRACKS = [
  'flush',
  'dressing',
  'temperature',
  'pain',
  'signs',
  'site',
  'events',
  'calls',
] as const
export type Track = (typeof TRACKS)[number]
export type Happenings = Record<Track, Happening[]> & { flags: FlagSpan[]; lanes: number }

export type Mark = (at: string, text: string, rest?: Partial<Happening>) => Happening

/** Colours of the fluid that are worth a mark, whatever drains. */
const SIGNS: readonly Appearance[] = ['pink', 'red', 'clots', 'cloudy', 'pus', 'enteric']

/** Everything that happened beside the output, over the whole record. Corrected reports count as corrected. */
export function happeningsOf(page: PatientPage): Happenings {
  const { timeZone: zone, drains } = page.record
  const { feverC } = page.limits
  const reports = standingReports(page.record.reports)
  const several = drains.length > 1
  const whose = (drain: string) => (several ? `${page.labels[drain]?.label ?? drain}: ` : '')
  const places = new Map(drains.map(({ id }, i) => [id, i]))
  const mark: Mark = (at, text, rest = {}) => {
    // The calendar is asked once for each: there may be thousands.
    const { year, month, day, hour, minute } = localParts(at, zone)
    return {
      date: `${year}-${two(month)}-${two(day)}`,
      part: (hour * 60 + minute) / 1440,
      time: `${two(hour)}:${two(minute)}`,
      ...{ value: null, tone: 'plain' as const, label: '', lane: null },
      text,
      ...rest,
    }
  }
  const of = (drain: string) => ({ lane: several ? (places.get(drain) ?? null) : null })
  const alarm = (text: string): Partial<Happening> => (text ? { tone: 'alarm', label: text } : {})
  const symptoms = reports.flatMap((report) => (report.symptoms ? [report.symptoms] : []))

  return {
    lanes: several ? drains.length : 1,
    flush: inOrder(
      reports
        .flatMap(({ flushes }) => flushes ?? [])
        .map(({ at, drain, volumeMl, ease }) => {
          const said = [volumeMl == null ? 'flush' : `${volumeMl} mL`, ease ? easeLabels[ease] : '']
          const trouble = ease && ease !== 'easy' ? easeLabels[ease] : ''
          return mark(at, whose(drain) + said.filter(Boolean).join(', '), { ...alarm(trouble), ...of(drain) })
        }),
    ),
    dressing: inOrder(
      reports
        .flatMap(({ dressings }) => dressings ?? [])
        .map(({ at, drain, found, skin, changed }) => {
          const bad = [
            found && found !== 'clean' ? foundLabels[found] : '',
            skin && skin !== 'intact' ? `skin ${skinLabels[skin]}` : '',
          ]
            .filter(Boolean)
            .join(', ')
          const done = changed === false ? 'not changed' : changed ? 'changed' : 'seen'
          return mark(at, `${whose(drain)}${done}${bad ? `, ${bad}` : ''}`, { ...alarm(bad), ...of(drain) })
        }),
    ),
    temperature: inOrder(
      symptoms.flatMap(({ at, temperatureC, chills }) =>
        temperatureC == null
          ? []
          : [
              mark(at, `${temperatureC} °C${chills ? ', chills' : ''}`, {
                value: temperatureC,
                ...alarm(temperatureC >= feverC ? String(temperatureC) : ''),
              }),
            ],
      ),
    ),
    pain: inOrder(
      symptoms.flatMap(({ at, pain }) =>
        pain == null
          ? []
          : [mark(at, `${pain} of 10`, { value: pain, label: pain >= 4 ? String(pain) : '' })],
      ),
    ),
    signs: inOrder([
      ...symptoms.flatMap(({ at, chills, general }) => {
        const said = [
          ...(chills ? ['chills'] : []),
          ...(general ?? []).map((one) => generalLabels[one]),
        ].join(', ')
        return said ? [mark(at, said, alarm(said))] : []
      }),
      ...reports
        .flatMap(({ readings }) => readings ?? [])
        .flatMap(({ at, drain, appearance }) => {
          const said = appearance && SIGNS.includes(appearance) ? appearanceLabels[appearance] : ''
          return said ? [mark(at, whose(drain) + said, { ...alarm(said), ...of(drain) })] : []
        }),
    ]),
    site: inOrder(
      symptoms.flatMap(({ at, drains }) =>
        (drains ?? []).flatMap(({ drain, position, leak, draining }) => {
          if (!position && leak == null && draining == null) return []
          const wrong = [
            position && position !== 'in-place' ? positionLabels[position] : '',
            leak ? 'leak' : '',
            draining === false ? 'not draining' : '',
          ]
            .filter(Boolean)
            .join(', ')
          const text =
            wrong || (position ? positionLabels[position] : leak === false ? 'no leak' : 'draining')
          return [mark(at, whose(drain) + text, { ...alarm(wrong), ...of(drain) })]
        }),
      ),
    ),
    events: inOrder(careEvents(page, mark, whose)),
    calls: inOrder([
      ...page.notes
        .filter(({ undoneAt }) => undoneAt === null)
        .map(({ at, by, text }) => mark(at, `note, ${by}: ${shortened(text)}`, { label: 'note' })),
      ...standingCalls(page.callbacks).map(({ at, by, outcome, agreed, asked }) => {
        const said = [outcomeLabels[outcome], ...agreed.map((one) => agreedLabels[one])]
        return mark(at, `${by}: ${said.join(', ').toLowerCase()}${answersText(asked, whose)}`, {
          tone: 'staff',
          label: `${by}, ${outcomeLabels[outcome].toLowerCase()}`,
        })
      }),
    ]),
    flags: flagSpans(page),
  }
}

/** What was answered in a call, in few words. */
const answersText = (asked: readonly AskedAnswer[], whose: (drain: string) => string) => {
  const answered = asked.filter(({ answer }) => answer !== '')
  if (answered.length === 0) return ''
  return `; ${shortened(answered.map(({ question, drain, answer }) => `${drain ? whose(drain) : ''}${question} ${answer}`).join(', '))}`
}

const two = (n: number) => String(n).padStart(2, '0')

const NOTE = 160
const shortened = (text: string) => (text.length > NOTE ? `${text.slice(0, NOTE).trimEnd()} …` : text)

const inOrder = (list: Happening[]): Happening[] =>
  list.toSorted((a, b) => (a.date === b.date ? a.part - b.part : a.date < b.date ? -1 : 1))
