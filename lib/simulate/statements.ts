import type { Dressing, Reading, Symptoms } from '../domain/record.ts'
import { type DrainKind, type General, isUrinary } from '../domain/words.ts'
import type { EventWithEnd } from './course-of-events.ts'
import { felt } from './output.ts'
import { body, care } from './parameters.ts'
import type { Random } from './random.ts'

/** What the patient would see and feel at an hour, apart from volumes. */
export type Moment = {
  readonly hour: number
  readonly events: readonly EventWithEnd[]
  readonly usualPain: number
  readonly random: Random
  /** Every question is answered. */
  readonly asked: boolean
}

const current = (events: readonly EventWithEnd[], hour: number) =>
  events.filter((event) => hour >= event.onset && (event.end === null || hour < event.end.at))

/** What the drain looks like inside; null where the question is left out. */
export function appearanceAt(
  moment: Moment,
  kind: DrainKind,
  drain: number,
  tubeAgeHours: number,
): Reading['appearance'] {
  const { random, hour } = moment
  const answered = random.chance(0.85) || moment.asked
  const stained = random.chance(isUrinary(kind) ? body.pinkUrine.value : 0)
  const freshlyPink = random.chance(0.4)
  const cloudyWithFever = random.chance(0.4)
  const clots = random.chance(0.3)
  if (!answered) return null
  const own = moment.events.filter((event) => event.drain === drain)
  if (own.some((event) => event.type === 'bleeding' && felt(event, event.onset, hour)))
    return clots ? 'clots' : 'red'
  if (own.some((event) => event.type === 'fistula' && event.noticed && hour >= event.onset + 12))
    return 'enteric'
  if (isUrinary(kind)) {
    if (tubeAgeHours < 48 && freshlyPink) return 'pink'
    if (own.some((event) => felt(event, event.feverFrom, hour)) && cloudyWithFever) return 'cloudy'
    return stained ? 'pink' : 'straw'
  }
  if (kind === 'bulb') return tubeAgeHours < 36 ? 'red' : tubeAgeHours < 84 ? 'pink' : 'serous'
  if (kind === 'collection') return tubeAgeHours < 24 * 6 ? 'pus' : 'serous'
  if (kind === 'pleural') return 'straw'
  return kind === 'biliary' ? 'bile-green' : 'bile-dark'
}

/** Answers to the questions on how the patient is, for the drains still in. */
export function symptomsAt(
  moment: Moment,
  at: string,
  drains: readonly { id: string; index: number }[],
): Symptoms {
  const { random, hour, events } = moment
  const cold = random.chance(body.otherFever.value)
  const fever = cold || events.some((event) => felt(event, event.feverFrom, hour))
  const peak = Math.max(
    38.2,
    ...events.filter((event) => felt(event, event.feverFrom, hour)).map((event) => event.feverPeakC),
  )
  const measured = random.chance(fever ? 0.85 : body.measuresTemperature.value) || moment.asked
  const normal = random.normal(...body.temperatureC.value)
  const feverish = peak - Math.abs(random.normal(0, 0.35))
  const chills = random.chance(0.5)
  const flare = random.chance(body.painFlare.value)
  const felty = events.filter((event) => felt(event, event.painFrom, hour)).map((event) => event.painAdd)
  const pain = moment.usualPain + Math.round(random.normal(0, 0.6)) + Math.max(flare ? 5 : 0, ...felty)
  return {
    at,
    temperatureC: measured ? Math.round((fever ? feverish : normal) * 10) / 10 : null,
    chills: fever ? chills : false,
    pain: Math.min(10, Math.max(0, pain)),
    drains: drains.map(({ id, index }) => drainSymptoms(moment, id, index)),
    general: generalAt(moment),
  }
}

function generalAt({ random, hour, events }: Moment): General[] {
  const sick = random.chance(body.dizzyOrSick.value)
  const which = random.weighted<General>([
    ['vomiting', 1],
    ['dizzy', 1],
  ])
  const gets = random.uniform()
  const general = new Set<General>(sick ? [which] : [])
  const now = current(events, hour)
  if (now.some((event) => event.type === 'bleeding')) {
    if (gets < 0.1) general.add('heavy-bleeding')
    else if (gets < 0.25) general.add('dizzy')
  }
  if (now.some((event) => event.feverFrom !== null && hour >= event.feverFrom)) {
    if (gets > 0.96) general.add('confused')
    else if (gets > 0.8) general.add('vomiting')
  }
  return [...general]
}

function drainSymptoms({ random, hour, events }: Moment, drain: string, index: number) {
  const smallLeak = random.chance(body.smallLeak.value)
  const own = current(events, hour).filter((event) => event.drain === index)
  const position = own.find(
    (event) => (event.type === 'drain-out' || event.type === 'drain-moved') && event.noticed,
  )?.type
  const leak = smallLeak || own.some((event) => event.leakFrom !== null && hour >= event.leakFrom)
  const nothing = own.some(
    (event) => event.noticed && event.type === 'sudden-obstruction' && hour >= event.onset + 6,
  )
  return {
    drain,
    position:
      position === 'drain-out'
        ? ('out' as const)
        : position === 'drain-moved'
          ? ('moved' as const)
          : ('in-place' as const),
    leak,
    draining: !(nothing || position === 'drain-out'),
  }
}

/** What was found under a dressing that is due, or between changes; null: nothing was said. */
export function dressingAt(
  { random }: Moment,
  drain: string,
  at: string,
  due: boolean,
  recorded: boolean,
): { done: boolean; said: Dressing | null } {
  const done = random.chance(care.dressingDone.value)
  const written = random.chance(care.dressingRecorded.value)
  const dirt = random.uniform()
  const redSkin = random.chance(body.redSkin.value)
  if (!due || !done) return { done: false, said: null }
  const [damp, soiled, loosened] = care.dressingDirty.value
  const found =
    dirt < damp
      ? 'damp'
      : dirt < damp + soiled
        ? 'soiled'
        : dirt < damp + soiled + loosened
          ? 'loosened'
          : 'clean'
  return {
    done,
    said: recorded && written ? { drain, at, found, skin: redSkin ? 'red' : 'intact', changed: true } : null,
  }
}
