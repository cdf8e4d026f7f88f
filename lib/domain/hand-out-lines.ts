import { type ClinicHours, Weekday } from './clinic-hours.ts'
import type { HandOut, HandOutDrain, HandOutVisit } from './hand-out.ts'
import { isBiliary, isUrinary } from './kinds.ts'
import { clockTime, localDate } from './local-time.ts'
import type { HandOutText } from './texts/hand-out.ts'

/** A number without needless digits. @example plain(10) // '10' */
const plain = (value: number): string => String(Math.round(value * 10) / 10)

/** Sentences one after the other; one that ends in an abbreviation's point has that point alone. */
export const running = (sentences: readonly string[]): string => sentences.join(' ').replaceAll('..', '.')

/** What is ordered for one drain, in sentences. `zone` is that of the clinic, where visits take place. */
export function orderLines(drain: HandOutDrain, text: HandOutText, zone: string): string[] {
  const { flush, visits, removalPlan, exchangeEveryDays, lengthMarkCm } = drain
  const exchange = visits.find(({ kind }) => kind === 'exchange')
  const removal = visits.find(({ kind }) => kind === 'removal')
  return [
    ...(drain.capped ? [text.capped] : []),
    text.measure(text.every(drain.logEveryHours)),
    flush
      ? text.flush(
          plain(flush.volumeMl),
          flush.at.length > 0 ? text.flushAt(flush.at.map(text.time)) : text.every(flush.everyHours),
        )
      : text.noFlush,
    text.dressing(text.every(drain.dressingEveryHours), drain.dressingType),
    ...(lengthMarkCm === null ? [] : [text.cmAtSkin(plain(lengthMarkCm))]),
    ...visitLines(exchange, text.newTubeBooked, text.newTubeAsked, text, zone),
    ...(exchangeEveryDays === null || exchange ? [] : [text.newTube(plain(exchangeEveryDays))]),
    ...visitLines(removal, text.takeOutBooked, text.takeOutAsked, text, zone),
    ...(removalPlan ? [text.takeOut(ended(removalPlan))] : []),
  ]
}

const ended = (words: string) => (/[.!?]$/.test(words) ? words : `${words}.`)

function visitLines(
  visit: HandOutVisit | undefined,
  booked: (when: string) => string,
  asked: string,
  text: HandOutText,
  zone: string,
): string[] {
  if (!visit) return []
  return visit.state === 'booked' && visit.bookedFor
    ? [booked(momentText(visit.bookedFor, text, zone))]
    : [asked]
}

/** A day and time in the words of the language. */
export const momentText = (instant: string, text: HandOutText, zone: string): string =>
  text.dateAndTime(dayText(localDate(instant, zone), text), text.time(clockTime(instant, zone)))

const parts = (date: string) => {
  const [year = 0, month = 1, day = 1] = date.split('-').map(Number)
  return { year, month, day }
}

const dayText = (date: string, text: HandOutText): string =>
  text.date({ weekday: new Date(Date.parse(date)).getUTCDay(), ...parts(date) })

/** A date with its year. */
export const fullDateText = (date: string, text: HandOutText): string => text.fullDate(parts(date))

/** When to go, when to call now and when to call the same day: of these what can befall these drains. */
export function dangerLines({ drains, feverC }: Pick<HandOut, 'drains' | 'feverC'>, text: HandOutText) {
  const { emergencyIf, callNowIf, callTodayIf } = text
  const has = (is: (drain: HandOutDrain) => boolean) => drains.some(is)
  const onlyBulbs = drains.length > 0 && drains.every(({ kind }) => kind === 'bulb')
  const flowing = drains.filter(({ capped }) => !capped)
  return {
    emergency: [
      emergencyIf.breath,
      emergencyIf.bleeding,
      ...(onlyBulbs ? [] : [emergencyIf.out]),
      ...(has(({ kind }) => isUrinary(kind) || isBiliary(kind)) ? [emergencyIf.infected] : []),
      emergencyIf.noAnswer,
    ],
    callNow: [
      callNowIf.fever(feverC.toFixed(1), ((feverC * 9) / 5 + 32).toFixed(1)),
      ...(onlyBulbs ? [callNowIf.out] : []),
      ...(flowing.length === 0
        ? []
        : [flowing.some(({ course }) => course === 'steady') ? callNowIf.stops : callNowIf.dwindles]),
      callNowIf.moved,
      callNowIf.blood,
      callNowIf.pain,
    ],
    callToday: [
      callTodayIf.fluid,
      callTodayIf.skin,
      ...(has(({ flush }) => flush !== null) ? [callTodayIf.flush] : []),
      callTodayIf.unwell,
    ],
  }
}

/** When somebody reads, in sentences: days with the same hours together, then the next closed days. */
export function hoursLines(hours: ClinicHours | null, today: string, text: HandOutText): string[] {
  if (hours === null) return [text.hoursUnknown]
  const days = Weekday.options.map((day) => ({
    day,
    open: (hours.week[day] ?? [])
      .map(({ from, until }) => `${text.time(from)}–${text.time(until)}`)
      .join(', '),
  }))
  const runs: { from: Weekday; to: Weekday; open: string }[] = []
  for (const { day, open } of days) {
    const last = runs.at(-1)
    if (last && last.open === open) last.to = day
    else runs.push({ from: day, to: day, open })
  }
  const name = ({ from, to }: { from: Weekday; to: Weekday }) =>
    from === to ? text.weekdays[from] : `${text.weekdays[from]}–${text.weekdays[to]}`
  const holidays = hours.holidays
    .filter(({ date }) => date >= today)
    .toSorted((a, b) => (a.date < b.date ? -1 : 1))
    .slice(0, 2)
    .map(({ date }) => dayText(date, text))
  const open = runs.filter((run) => run.open !== '').map((run) => `${name(run)} ${run.open}`)
  return [
    ...(open.length > 0 ? [`${text.reads} ${text.joined(open)}.`] : []),
    ...(holidays.length > 0 ? [`${text.closedOn} ${text.joined(holidays)}.`] : []),
  ]
}
