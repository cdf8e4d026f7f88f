import { isPressing } from '../../assessment/flag-life.ts'
import type { Agreed, NewCallback } from '../../domain/callback.ts'
import type { FindingCode } from '../../domain/words.ts'
import type { KeptFlag } from '../../store/flags.ts'

/** What is agreed about a finding in the scenario's calls, and what the nurse noted. */
const talk: Partial<Record<FindingCode, { agreed: Agreed[]; note: string }>> = {
  'drain-out': {
    agreed: ['emergency-department'],
    note: 'Site covered with a dressing; on the way to the department, tube to be put back today.',
  },
  'emergency-symptoms': {
    agreed: ['emergency-department'],
    note: 'Not well on the phone: sent in, somebody drives.',
  },
  'drain-moved': {
    agreed: ['clinic-visit'],
    note: 'Tube taped as it lies, not pushed back; position to be checked here.',
  },
  'output-stopped': { agreed: ['exchange-booked'], note: 'No kink found, nothing comes; exchange arranged.' },
  'output-decline': {
    agreed: ['imaging'],
    note: 'Less for some days, drinking as usual; tube to be looked at.',
  },
  'infection-signs': {
    agreed: ['clinic-visit'],
    note: 'Feels unwell; seen today, blood taken, antibiotic after review.',
  },
  'blocked-and-infected': {
    agreed: ['emergency-department'],
    note: 'Fever with nothing draining: sent in at once.',
  },
  bleeding: {
    agreed: ['watch-and-report'],
    note: 'Pink, no clots, not dizzy; to report again this evening.',
  },
  leak: { agreed: ['watch-and-report'], note: 'Connection was loose, now dry.' },
  'severe-pain': { agreed: ['clinic-visit'], note: 'Pain at the site since the morning; to be seen.' },
  unwell: { agreed: ['watch-and-report'], note: 'Better already; drinks and keeps it down.' },
  'flush-blocked': { agreed: ['clinic-visit'], note: 'Flush does not go in; told not to force it.' },
  'removal-check': {
    agreed: ['removal-booked'],
    note: 'Almost nothing for days, no fever; imaging, then removal.',
  },
  'log-missed': { agreed: ['self-care'], note: 'Was away; will report again from tomorrow.' },
  'exchange-due': { agreed: ['clinic-visit'], note: 'Exchange asked for; the day will be told.' },
  'dressing-overdue': { agreed: ['self-care'], note: 'Helper changes the dressing tonight.' },
  'flush-missed': { agreed: ['self-care'], note: 'Flush explained once more.' },
  'reading-suspect': { agreed: ['watch-and-report'], note: 'Had misread the marks; knows now.' },
}
const otherwise = { agreed: ['watch-and-report' as const], note: 'Nothing new; to report as usual.' }

/** A call that reached somebody and closes all that stands. */
export function reached(
  standing: readonly KeptFlag[],
  spokenTo: 'patient' | 'helper',
  interpreter: boolean,
  lookAgainAt: string,
): NewCallback {
  const topics = [...new Set(standing.map(({ code }) => code))].map((code) => talk[code] ?? otherwise)
  // What is at once is not left at home, whatever the talk.
  const seenToday: Agreed[] = standing.some(({ urgency }) => urgency === 'at-once') ? ['clinic-visit'] : []
  const needsLook = standing.some((flag) => flag.state === 'open' && isPressing(flag.urgency))
  return {
    outcome: 'reached',
    spokenTo,
    interpreter,
    teachBack: true,
    agreed: [...new Set([...topics.flatMap(({ agreed }) => agreed), ...seenToday])],
    closes: standing.map(({ id }) => id),
    lookAgainAt: needsLook ? lookAgainAt : null,
    note: topics
      .slice(0, 2)
      .map(({ note }) => note)
      .join(' '),
  }
}
