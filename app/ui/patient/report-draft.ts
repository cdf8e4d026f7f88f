import { UNCONFIRMED_MAX_ML, VOLUME_MAX_ML } from '@/lib/domain/limits.ts'
import { inputTime, instantOf } from '@/lib/domain/local-time.ts'
import type { Report } from '@/lib/domain/record.ts'
import type { Submission } from '@/lib/domain/submission.ts'
import { fahrenheitToCelsius } from '@/lib/domain/units.ts'
import type { Appearance, DressingFound, Ease, General, Position, Skin } from '@/lib/domain/words.ts'
import { isWithin, numberOf } from '../parts/number-text.ts'

/** Yes, no, or not asked. */
export type Asked = '' | 'yes' | 'no'
export type ReadingDraft = {
  drain: string
  at: string
  volume: string
  unmeasured: boolean
  total: boolean
  confirmed: boolean
  appearance: Appearance | ''
}
export type FlushDraft = { drain: string; at: string; given: boolean; volume: string; ease: Ease | '' }
export type DressingDraft = {
  drain: string
  at: string
  changed: Asked
  found: DressingFound | ''
  skin: Skin | ''
}
export type SiteDraft = { drain: string; position: Position | ''; leak: Asked; draining: Asked }
export type ReportDraft = {
  /** What the clock said when the form was opened: 'just now'; null where a report is corrected. */
  opened: string | null
  at: string
  readings: ReadingDraft[]
  flushes: FlushDraft[]
  dressings: DressingDraft[]
  sites: SiteDraft[]
  temperature: string
  unit: 'C' | 'F'
  chills: Asked
  pain: string
  general: General[]
  noGeneral: boolean
  note: string
}

export const emptyReading = (drain: string, at: string): ReadingDraft => ({
  drain,
  at,
  volume: '',
  unmeasured: false,
  total: false,
  confirmed: false,
  appearance: '',
})
export const emptyFlush = (drain: string, at: string): FlushDraft => ({
  drain,
  at,
  given: false,
  volume: '',
  ease: '',
})
export const emptyDressing = (drain: string, at: string): DressingDraft => ({
  drain,
  at,
  changed: '',
  found: '',
  skin: '',
})

/** The form as it opens: for each drain one line of each kind, at this moment of the patient's clock. */
export function emptyReport(drains: readonly string[], now: number, zone: string): ReportDraft {
  const at = inputTime(now, zone)
  return {
    opened: at,
    at,
    readings: drains.map((drain) => emptyReading(drain, at)),
    flushes: drains.map((drain) => emptyFlush(drain, at)),
    dressings: drains.map((drain) => emptyDressing(drain, at)),
    sites: drains.map((drain) => ({ drain, position: '', leak: '', draining: '' })),
    temperature: '',
    unit: 'C',
    chills: '',
    pain: '',
    general: [],
    noGeneral: false,
    note: '',
  }
}

const asked = (value: boolean | null | undefined): Asked => (value == null ? '' : value ? 'yes' : 'no')

/** The form filled with a report that is to be corrected. */
export function draftOf(report: Report, note: string, drains: readonly string[], zone: string): ReportDraft {
  const blank = emptyReport(drains, Date.parse(report.receivedAt), zone)
  const time = (at: string) => inputTime(at, zone)
  const { symptoms } = report
  const filled = <T extends { drain: string }>(given: T[], empty: T[]): T[] => [
    ...given,
    ...empty.filter(({ drain }) => !given.some((one) => one.drain === drain)),
  ]
  return {
    ...blank,
    opened: null,
    at: symptoms ? time(symptoms.at) : blank.at,
    readings: filled(
      (report.readings ?? []).map(({ drain, at, volumeMl, appearance, total }) => ({
        ...emptyReading(drain, time(at)),
        volume: volumeMl === null ? '' : String(volumeMl),
        unmeasured: volumeMl === null,
        total: total ?? false,
        appearance: appearance ?? '',
      })),
      blank.readings,
    ),
    flushes: filled(
      (report.flushes ?? []).map(({ drain, at, volumeMl, ease }) => ({
        drain,
        at: time(at),
        given: true,
        volume: volumeMl == null ? '' : String(volumeMl),
        ease: ease ?? '',
      })),
      blank.flushes,
    ),
    dressings: filled(
      (report.dressings ?? []).map(({ drain, at, found, skin, changed }) => ({
        drain,
        at: time(at),
        changed: asked(changed),
        found: found ?? '',
        skin: skin ?? '',
      })),
      blank.dressings,
    ),
    sites: blank.sites.map((empty) => {
      const said = symptoms?.drains?.find(({ drain }) => drain === empty.drain)
      return said
        ? {
            drain: empty.drain,
            position: said.position ?? '',
            leak: asked(said.leak),
            draining: asked(said.draining),
          }
        : empty
    }),
    temperature: symptoms?.temperatureC == null ? '' : String(symptoms.temperatureC),
    chills: asked(symptoms?.chills),
    pain: symptoms?.pain == null ? '' : String(symptoms.pain),
    general: symptoms?.general ?? [],
    noGeneral: symptoms?.general?.length === 0,
    note,
  }
}

const isRead = ({ volume, unmeasured }: ReadingDraft) => unmeasured || volume.trim() !== ''
const isDressed = ({ changed, found, skin }: DressingDraft) => changed !== '' || found !== '' || skin !== ''
const isSited = ({ position, leak, draining }: SiteDraft) => position !== '' || leak !== '' || draining !== ''

/** What is wrong with the form before it is sent, by the place where it stands. */
export function reportFaults(draft: ReportDraft, zone: string): Record<string, string> {
  const faults: Record<string, string> = {}
  const time = (key: string, at: string) => {
    if (instantOf(at, zone) === null) faults[key] = 'Give a day and a time.'
  }
  draft.readings.forEach((reading, i) => {
    if (!isRead(reading)) return
    time(`readings.${i}.at`, reading.at)
    if (reading.unmeasured) return
    const value = numberOf(reading.volume) ?? 0
    if (!isWithin(reading.volume, 0, VOLUME_MAX_ML))
      faults[`readings.${i}.volume`] = `A number from 0 to ${VOLUME_MAX_ML} mL.`
    else if (value > UNCONFIRMED_MAX_ML && !reading.confirmed)
      faults[`readings.${i}.volume`] = `Over ${UNCONFIRMED_MAX_ML} mL: mark that it is meant.`
  })
  draft.flushes.forEach((flush, i) => {
    if (!flush.given) return
    time(`flushes.${i}.at`, flush.at)
    if (!isWithin(flush.volume, 0, VOLUME_MAX_ML)) faults[`flushes.${i}.volume`] = 'A number in mL.'
  })
  draft.dressings.forEach((dressing, i) => {
    if (isDressed(dressing)) time(`dressings.${i}.at`, dressing.at)
  })
  const celsius = celsiusOf(draft)
  if (celsius !== null && !(celsius >= 30 && celsius <= 45))
    faults.temperature = 'From 30 to 45 °C (86 to 113 °F).'
  if (!isWithin(draft.pain, 0, 10)) faults.pain = 'From 0 to 10.'
  if (saysSymptoms(draft)) time('at', draft.at)
  if (Object.keys(faults).length === 0 && isEmpty(draft)) faults.whole = 'Nothing is entered yet.'
  return faults
}

function celsiusOf({ temperature, unit }: Pick<ReportDraft, 'temperature' | 'unit'>): number | null {
  const value = numberOf(temperature)
  return value === null || unit === 'C' ? value : fahrenheitToCelsius(value)
}

const saysSymptoms = ({ temperature, chills, pain, general, noGeneral, sites }: ReportDraft) =>
  temperature.trim() !== '' ||
  chills !== '' ||
  pain.trim() !== '' ||
  general.length > 0 ||
  noGeneral ||
  sites.some(isSited)

const isEmpty = (draft: ReportDraft) =>
  !draft.readings.some(isRead) &&
  !draft.flushes.some(({ given }) => given) &&
  !draft.dressings.some(isDressed) &&
  !saysSymptoms(draft) &&
  draft.note.trim() === ''

/** The report as the door takes it. What was not asked is left out: it is not known, and never 'no'. */
export function toSubmission(draft: ReportDraft, zone: string, supersedes: string | null): Submission {
  const time = (at: string) => instantOf(at, zone) ?? at
  return {
    readings: draft.readings
      .filter(isRead)
      .map(({ drain, at, volume, unmeasured, total, confirmed, appearance }) => ({
        drain,
        at: time(at),
        volumeMl: unmeasured ? null : numberOf(volume),
        ...(appearance ? { appearance } : {}),
        ...(total ? { total } : {}),
        ...(confirmed ? { confirmed } : {}),
      })),
    flushes: draft.flushes
      .filter(({ given }) => given)
      .map(({ drain, at, volume, ease }) => ({
        drain,
        at: time(at),
        volumeMl: numberOf(volume),
        ...(ease ? { ease } : {}),
      })),
    dressings: draft.dressings.filter(isDressed).map(({ drain, at, changed, found, skin }) => ({
      drain,
      at: time(at),
      ...(changed ? { changed: changed === 'yes' } : {}),
      ...(found ? { found } : {}),
      ...(skin ? { skin } : {}),
    })),
    symptoms: saysSymptoms(draft) ? symptomsOf(draft, time(draft.at)) : null,
    ...(supersedes ? { supersedes } : {}),
    ...(draft.note.trim() ? { note: draft.note.trim() } : {}),
  }
}

function symptomsOf(draft: ReportDraft, at: string): NonNullable<Submission['symptoms']> {
  const { chills, pain, general, noGeneral } = draft
  return {
    at,
    ...(draft.temperature.trim() ? { temperatureC: celsiusOf(draft) } : {}),
    ...(chills ? { chills: chills === 'yes' } : {}),
    ...(pain.trim() ? { pain: numberOf(pain) } : {}),
    ...(general.length > 0 || noGeneral ? { general } : {}),
    drains: draft.sites.filter(isSited).map(({ drain, position, leak, draining }) => ({
      drain,
      ...(position ? { position } : {}),
      ...(leak ? { leak: leak === 'yes' } : {}),
      ...(draining ? { draining: draining === 'yes' } : {}),
    })),
  }
}
