import { describe, expect, it } from 'vitest'
import { alikeNames, likeBirthDates } from '../../../lib/domain/alike.ts'
import { NewDischarge } from '../../../lib/domain/discharge.ts'
import { Enrolment } from '../../../lib/domain/enrolment.ts'
import { profileFaults } from '../../../lib/domain/profile.ts'
import { PatientRecord } from '../../../lib/domain/record.ts'
import { usualCourse } from '../../../lib/domain/words.ts'
import { PEOPLE, person } from '../../../lib/simulate/demo/people.ts'
import { demoScenario } from '../../../lib/simulate/demo/scenario.ts'
import { demoDischarges } from '../../../lib/simulate/demo/waiting.ts'
import { recordAsOf } from '../../../lib/simulate/index.ts'

const hoursOfADay = Array.from(
  { length: 24 },
  (_, hour) => `2026-11-25T${String(hour).padStart(2, '0')}:10:00.000Z`,
)
const at = hoursOfADay[15] ?? ''
const scenario = demoScenario(at)

describe('the demo scenario', () => {
  it('has 60 patients, at least 12 of them with a nephrostomy and 12 with a collection', () => {
    const of = (kind: string) => scenario.filter(({ drains }) => drains[0]?.kind === kind).length
    expect(scenario).toHaveLength(60)
    expect(of('nephrostomy')).toBeGreaterThanOrEqual(12)
    expect(of('collection')).toBeGreaterThanOrEqual(12)
  })

  it('has every course that it promises, with its truth', () => {
    const courses = new Set(scenario.map(({ simulated }) => simulated.truth.course))
    for (const course of [
      'steady',
      'resolving',
      'blocking slowly',
      'blocking at once',
      'slipped',
      'infected',
      'silent',
    ] as const)
      expect(courses).toContain(course)
  })

  it('is taken by enrolment and by the record, at any hour of the day', () => {
    for (const endsAt of [hoursOfADay[3] ?? '', at])
      for (const { person, drains, simulated } of demoScenario(endsAt)) {
        expect(
          Enrolment.safeParse({
            ...person,
            timeZone: 'America/Denver',
            usual: simulated.enrolment.usual,
            drains,
          }).error?.issues ?? [],
        ).toEqual([])
        expect(PatientRecord.safeParse(recordAsOf(simulated, endsAt)).error?.issues ?? []).toEqual([])
      }
  })

  it('reaches back over the eight weeks that an audit has read, and nothing after it', () => {
    const enrolled = scenario.map(({ simulated }) => Date.parse(simulated.enrolment.enrolledAt))
    expect(Math.round((Date.parse(at) - Math.min(...enrolled)) / 86_400_000)).toBe(71)
    for (const { simulated } of scenario)
      for (const { receivedAt } of simulated.reports)
        expect(Date.parse(receivedAt)).toBeLessThan(Date.parse(at))
  })

  it('leaves somebody for the reader at every hour: out, stopped, feverish, silent', () => {
    for (const endsAt of hoursOfADay) {
      const now = demoScenario(endsAt).filter(({ openFrom }) => openFrom !== null)
      const lastOf = (course: string) =>
        now
          .filter(({ simulated }) => simulated.truth.course === course)
          .map(({ simulated }) => simulated.reports.at(-1))
      expect(
        lastOf('slipped').some((report) =>
          report?.symptoms?.drains?.some(({ position }) => position === 'out'),
        ),
      ).toBe(true)
      expect(
        lastOf('blocking at once').some((report) =>
          report?.symptoms?.drains?.some(({ draining }) => draining === false),
        ),
      ).toBe(true)
      expect(lastOf('infected').some((report) => (report?.symptoms?.temperatureC ?? 0) >= 38)).toBe(true)
      for (const report of lastOf('silent'))
        expect(Date.parse(endsAt) - Date.parse(report?.receivedAt ?? endsAt)).toBeGreaterThan(30 * 3_600_000)
    }
  })

  it('has steady and resolving drains side by side', () => {
    expect(new Set(scenario.map(({ drains }) => usualCourse[drains[0]?.kind ?? 'bulb'])).size).toBe(2)
  })
})

describe('the invented people', () => {
  const people = Array.from({ length: PEOPLE }, (_, i) => person(i))

  it('differ in name, record number and telephone number', () => {
    for (const field of ['name', 'recordNumber', 'phone'] as const)
      expect(new Set(people.map((one) => one[field])).size).toBe(PEOPLE)
  })

  it('have telephone numbers of the range kept for fiction', () => {
    for (const { phone } of people) expect(phone).toMatch(/^\+1 303 555 01\d\d$/)
  })

  it('have contacts in order, the patient first, and some a page in Spanish', () => {
    for (const { profile } of people) {
      expect(profileFaults(profile)).toEqual([])
      for (const { phone } of profile.contacts) expect(phone).toMatch(/^\+1 303 555 01\d\d$/)
    }
    expect(people.filter(({ profile }) => profile.checkInLanguage === 'es').length).toBeGreaterThan(0)
    expect(people.some(({ profile }) => profile.anticoagulant === null)).toBe(true)
  })

  it('are not alike among themselves', () => {
    const pairs = people.flatMap((one, i) =>
      people
        .slice(i + 1)
        .filter(
          ({ name, birthDate }) =>
            likeBirthDates(one.birthDate).includes(birthDate) && alikeNames(one.name, name),
        ),
    )
    expect(pairs).toEqual([])
  })

  it('are no more than there are', () => expect(() => person(PEOPLE)).toThrow(RangeError))
})

describe('the list of discharges', () => {
  const waiting = demoDischarges(at, 'America/Denver')

  it('has people who are taken by the list, none of them enrolled, at the end of an hour of the day', () => {
    const numbers = new Set(Array.from({ length: PEOPLE }, (_, i) => person(i).recordNumber))
    for (const { at: when, ...discharge } of waiting) {
      expect(NewDischarge.safeParse(discharge).error?.issues ?? []).toEqual([])
      expect(numbers).not.toContain(discharge.recordNumber)
      expect(Date.parse(when)).toBeLessThan(Date.parse(at))
    }
  })

  it('has one who is alike a patient', () => {
    const [first] = waiting
    const alike = Array.from({ length: PEOPLE }, (_, i) => person(i)).filter(
      ({ name, birthDate }) =>
        first && alikeNames(name, first.name) && likeBirthDates(first.birthDate).includes(birthDate),
    )
    expect(alike.map(({ name }) => name)).toEqual(['Ansel Quillfeather'])
  })
})

it('an exchange that is near is asked for and has no day yet', () => {
  const asked = scenario.filter(({ exchangeAskedAt }) => exchangeAskedAt !== null)
  expect(asked).toHaveLength(1)
  expect(asked[0]?.drains.every(({ exchangeBookedFor }) => !exchangeBookedFor)).toBe(true)
  expect(scenario.some(({ drains }) => drains.some(({ exchangeBookedFor }) => exchangeBookedFor))).toBe(true)
})
