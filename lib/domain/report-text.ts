import { capital } from './capital.ts'
import {
  appearanceLabels,
  easeLabels,
  foundLabels,
  generalLabels,
  positionLabels,
  skinLabels,
} from './labels.ts'
import { when } from './local-time.ts'
import type { DrainSymptoms, Dressing, Flush, Reading, Report, Symptoms } from './record.ts'

type Naming = { nameOf: (drain: string) => string; now: number; zone: string }

/** What a report says, line by line, in words: one line per reading, flush, dressing and statement. */
export function reportLines(report: Report, naming: Naming): string[] {
  return [
    ...(report.readings ?? []).map((one) => readingLine(one, naming)),
    ...(report.flushes ?? []).map((one) => flushLine(one, naming)),
    ...(report.dressings ?? []).map((one) => dressingLine(one, naming)),
    ...(report.symptoms ? symptomLines(report.symptoms, naming) : []),
  ]
}

const join = (parts: (string | null | undefined | false)[]) => parts.filter(Boolean).join(', ')
const at = (instant: string, { now, zone }: Naming) => when(instant, now, zone)
const volume = (ml: number) => `${Math.round(ml * 10) / 10} mL`

function readingLine({ drain, at: time, volumeMl, appearance, total }: Reading, naming: Naming): string {
  return join([
    `${naming.nameOf(drain)}: ${volumeMl === null ? 'could not measure' : volume(volumeMl)} at ${at(time, naming)}`,
    total && 'sum of several emptyings',
    appearance && appearanceLabels[appearance],
  ])
}

function flushLine({ drain, at: time, volumeMl, ease }: Flush, naming: Naming): string {
  return join([
    `${naming.nameOf(drain)}: flushed${volumeMl == null ? '' : ` ${volume(volumeMl)}`} at ${at(time, naming)}`,
    ease && easeLabels[ease],
  ])
}

function dressingLine({ drain, at: time, found, skin, changed }: Dressing, naming: Naming): string {
  return join([
    `${naming.nameOf(drain)}: dressing ${changed === false ? 'not changed' : changed ? 'changed' : 'seen'} at ${at(time, naming)}`,
    found && `found ${foundLabels[found]}`,
    skin && `skin ${skinLabels[skin]}`,
  ])
}

function symptomLines({ temperatureC, chills, pain, general, drains }: Symptoms, naming: Naming): string[] {
  const body = join([
    temperatureC != null && `temperature ${temperatureC} °C`,
    chills === true && 'chills',
    chills === false && 'no chills',
    pain != null && `pain ${pain} of 10`,
    ...(general ?? []).map((one) => generalLabels[one]),
  ])
  return [...(body ? [capital(body)] : []), ...(drains ?? []).flatMap((one) => drainLine(one, naming))]
}

function drainLine({ drain, position, leak, draining }: DrainSymptoms, { nameOf }: Naming): string[] {
  const text = join([
    position && `drain ${positionLabels[position]}`,
    leak === true && 'leaks',
    leak === false && 'no leak',
    draining === true && 'draining',
    draining === false && 'not draining',
  ])
  return text ? [`${nameOf(drain)}: ${text}`] : []
}
