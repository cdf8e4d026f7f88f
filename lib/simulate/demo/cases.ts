import type { DrainKind, General } from '../../domain/words.ts'
import type { PlannedEvent } from '../draw-events.ts'
import type { MissedFate } from '../reports.ts'

/** What a scenario patient adds to the report that is made to happen. */
export type Saying = {
  readonly general?: readonly General[]
  readonly pain?: number
  readonly appearance?: 'pink' | 'clots'
  readonly dressing?: 'damp' | 'soiled'
  readonly skin?: 'red' | 'broken'
  /** The patient's own words. */
  readonly note?: string
}

/** One patient of the demo scenario: what they have, and what happens to them, told backwards from its end. */
export type Case = {
  readonly kind: DrainKind
  /** Days in follow-up at the end. */
  readonly days: number
  readonly ageDays: number
  readonly levelMlPerDay?: number
  readonly halfLifeDays?: number
  /** Events with their onset in hours before the end. */
  readonly events?: readonly (Omit<PlannedEvent, 'onsetHour'> & { hoursAgo: number })[]
  /** Reports this many minutes before the end, whatever the habit, which stops before the first of them. */
  readonly reportMinutesAgo?: readonly number[]
  readonly onlyKidney?: boolean
  readonly missed?: MissedFate
  /** Whose day-to-day chance is this patient’s, where the story needs a certain one. */
  readonly seed?: number
  readonly says?: Saying
  readonly twoDrains?: boolean
  /** The exchange is near and asked for, but has no day yet. */
  readonly exchangeAskedFor?: boolean
  readonly adherence?: number
}

const steady = (kind: DrainKind, days: number, ageDays: number, more: Partial<Case> = {}): Case => ({
  kind,
  days,
  ageDays,
  ...more,
})
/** A collection, bulb or pleural drain that dwindles. */
const dwindling = (
  kind: DrainKind,
  days: number,
  levelMlPerDay: number,
  halfLifeDays: number,
  more: Partial<Case> = {},
): Case => ({
  kind,
  days,
  ageDays: 2,
  levelMlPerDay,
  halfLifeDays,
  ...more,
})

/** What a nurse finds on opening the worklist at the scenario's end. */
const today: readonly Case[] = [
  // At once: a drain that came out, and fever behind a drain that has stopped.
  steady('nephrostomy', 41, 12, {
    levelMlPerDay: 620,
    events: [{ type: 'drain-out', hoursAgo: 1.5, noticed: true, calledAfterHours: null }],
    reportMinutesAgo: [6],
    says: { note: 'It caught on the door handle and the whole tube came out.' },
  }),
  steady('nephrostomy', 33, 20, {
    levelMlPerDay: 540,
    events: [
      {
        type: 'sudden-obstruction',
        hoursAgo: 16,
        noticed: true,
        fever: true,
        feverAfterHours: 9,
        leak: false,
        calledAfterHours: null,
      },
    ],
    reportMinutesAgo: [14],
    says: { note: 'Shivering since last night, the bag is empty.' },
  }),
  // Within an hour: stopped, fever, moved, leaking.
  steady('nephrostomy', 27, 9, {
    levelMlPerDay: 700,
    events: [
      {
        type: 'sudden-obstruction',
        hoursAgo: 14,
        noticed: true,
        fever: false,
        leak: false,
        calledAfterHours: null,
      },
    ],
    reportMinutesAgo: [34],
    says: { note: 'I turned the tube and checked for kinks, still nothing.' },
  }),
  steady('nephroureteral', 38, 25, {
    events: [{ type: 'infection', hoursAgo: 5, calledAfterHours: null }],
    reportMinutesAgo: [22],
  }),
  steady('biliary', 30, 30, {
    levelMlPerDay: 430,
    events: [{ type: 'drain-moved', hoursAgo: 9, noticed: true, leak: false, calledAfterHours: null }],
    reportMinutesAgo: [47],
    says: { note: 'The black line on the tube is further out than before.' },
  }),
  steady('cholecystostomy', 24, 11, { levelMlPerDay: 240, says: { pain: 8 }, reportMinutesAgo: [18] }),
  // Within a day: a slow fall, a fistula, an abrupt stop of a collection, pink, sickness, a damp dressing, red skin.
  steady('nephrostomy', 36, 15, {
    levelMlPerDay: 800,
    events: [
      {
        type: 'gradual-obstruction',
        hoursAgo: 7 * 24,
        fallDays: 10,
        fever: false,
        leak: false,
        calledAfterHours: null,
      },
      // Away over some days, all of which are entered today from a note: the slow fall shows at once.
      { type: 'silence', hoursAgo: 76, days: 30 },
    ],
    missed: 'separate',
    seed: 43,
    reportMinutesAgo: [55],
    says: { note: 'I was at my sister’s and wrote the numbers down; here they all are.' },
  }),
  dwindling('collection', 12, 60, 4, {
    events: [{ type: 'fistula', hoursAgo: 25, noticed: true, calledAfterHours: null }],
    reportMinutesAgo: [25 * 60, 70],
  }),
  dwindling('collection', 9, 190, 9, {
    events: [
      { type: 'sudden-obstruction', hoursAgo: 26, noticed: false, leak: false, calledAfterHours: null },
    ],
    reportMinutesAgo: [26 * 60, 42],
  }),
  steady('nephrostomy', 44, 30, { levelMlPerDay: 520, says: { appearance: 'pink' }, reportMinutesAgo: [95] }),
  steady('biliary', 21, 14, { levelMlPerDay: 510, says: { general: ['vomiting'] }, reportMinutesAgo: [130] }),
  dwindling('bulb', 6, 130, 7, { says: { dressing: 'damp' }, reportMinutesAgo: [150] }),
  // Ready for a look at removal.
  dwindling('collection', 15, 50, 3, { reportMinutesAgo: [80] }),
  dwindling('bulb', 11, 90, 3.2, { reportMinutesAgo: [110] }),
  // Not heard for days.
  steady('nephrostomy', 29, 18, { events: [{ type: 'silence', hoursAgo: 46, days: 30 }] }),
  steady('cholecystostomy', 33, 21, { events: [{ type: 'silence', hoursAgo: 64, days: 30 }] }),
  dwindling('collection', 10, 150, 8, { events: [{ type: 'silence', hoursAgo: 40, days: 30 }] }),
]

/** What happened in the weeks before and was helped: the histories. */
const past: readonly Case[] = [
  steady('nephrostomy', 71, 6, {
    levelMlPerDay: 610,
    events: [
      { type: 'bleeding', hoursAgo: 58 * 24, calledAfterHours: 20 },
      { type: 'gradual-obstruction', hoursAgo: 30 * 24, fallDays: 6, calledAfterHours: 120 },
    ],
  }),
  steady('nephrostomy', 68, 9, {
    levelMlPerDay: 480,
    events: [
      { type: 'infection', hoursAgo: 51 * 24, calledAfterHours: 22 },
      { type: 'sudden-obstruction', hoursAgo: 19 * 24, noticed: true, fever: false, calledAfterHours: 30 },
    ],
  }),
  steady('nephrostomy', 66, 4, {
    levelMlPerDay: 730,
    events: [
      { type: 'sudden-obstruction', hoursAgo: 47 * 24, noticed: true, fever: false, calledAfterHours: 26 },
      { type: 'drain-out', hoursAgo: 12 * 24, noticed: true, calledAfterHours: 10 },
    ],
  }),
  steady('biliary', 70, 8, {
    levelMlPerDay: 390,
    events: [{ type: 'infection', hoursAgo: 16 * 24, calledAfterHours: 26 }],
  }),
  steady('nephrostomy', 50, 31, {
    levelMlPerDay: 560,
    events: [{ type: 'bleeding', hoursAgo: 24 * 24, calledAfterHours: 14 }],
  }),
  steady('nephroureteral', 67, 5, {
    events: [
      { type: 'drain-moved', hoursAgo: 55 * 24, noticed: true, calledAfterHours: 24 },
      { type: 'infection', hoursAgo: 9 * 24, calledAfterHours: 30 },
    ],
  }),
  steady('cholecystostomy', 45, 8, {
    levelMlPerDay: 260,
    events: [{ type: 'drain-moved', hoursAgo: 21 * 24, noticed: true, calledAfterHours: 28 }],
  }),
  steady('biliary', 40, 26, {
    levelMlPerDay: 560,
    events: [{ type: 'gradual-obstruction', hoursAgo: 14 * 24, fallDays: 5, calledAfterHours: 110 }],
  }),
  dwindling('collection', 34, 110, 4),
  dwindling('collection', 31, 140, 4.2),
  dwindling('bulb', 26, 100, 3.4),
]

/** Nothing happens: most of a panel. */
const quiet: readonly Case[] = [
  ...[55, 49, 43, 37, 31, 26, 19, 12].map((days, i) =>
    steady('nephrostomy', days, 5 + i * 4, { twoDrains: i === 2 }),
  ),
  ...[53, 39, 16].map((days, i) => steady('nephroureteral', days, 8 + i * 11)),
  steady('biliary', 52, 14, { exchangeAskedFor: true }),
  ...[44, 35, 22, 13].map((days, i) => steady('biliary', days, 15 + i * 6)),
  ...[47, 28, 17].map((days, i) => steady('cholecystostomy', days, 7 + i * 9)),
  ...[11, 9, 8, 7, 6, 5, 4].map((days, i) => dwindling('collection', days, 120 + i * 35, 7 + (i % 3) * 2)),
  ...[42, 29, 15].map((days, i) => dwindling('pleural', days, 190 + i * 60, 45)),
  ...[7, 5, 3].map((days, i) => dwindling('bulb', days, 150 + i * 20, 8)),
]

export const cases: readonly Case[] = [...today, ...past, ...quiet]
