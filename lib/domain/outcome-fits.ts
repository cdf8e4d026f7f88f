import type { FlaggedUrgency } from './after-hours.ts'
import type { Agreed } from './callback.ts'
import type { FlagState } from './flag.ts'
import type { Instant } from './instant.ts'
import { agreedLabels, findingLabels, urgencyLabels } from './labels.ts'
import type { Fault } from './problem.ts'
import { type FindingCode, urgencyRank } from './words.ts'

/** Somebody looks at the patient, or the patient is on the way to where somebody does. */
const seen: readonly Agreed[] = [
  'clinic-visit',
  'imaging',
  'exchange-booked',
  'removal-booked',
  'emergency-department',
  'emergency-services',
]
/** The patient stays at home and is looked at again. */
const atHome: readonly Agreed[] = ['self-care', 'watch-and-report']
/** Within how many hours what stays at home is looked at again (local choice). */
const LOOK_HOURS = { 'at-once': 24, 'within-1h': 72 } as const

export type Closing = { code: FindingCode; urgency: FlaggedUrgency; state: FlagState }
export type SaidOf = { agreed: readonly Agreed[]; lookAgainAt: Instant | null; note: string }

/**
 * What forbids an outcome to close what is at once or within the hour; empty where it fits. Fits: somebody will see the
 * patient; or they stay at home and are looked at again soon; or nothing is needed, and the note says why. Of what is
 * merely owed a call the evidence is over: there only an unexplained 'nothing needed' of what was at once does not fit.
 */
export function outcomeFaults(
  closing: readonly Closing[],
  { agreed, lookAgainAt, note }: SaidOf,
  now: number,
): Fault[] {
  if (agreed.some((one) => seen.includes(one))) return []
  const isExplained = agreed.includes('nothing-needed') && note.trim() !== ''
  const isNothing = agreed.every((one) => one === 'nothing-needed')
  const isAtHome = agreed.some((one) => atHome.includes(one))
  const fits = ({ urgency, state }: Closing) => {
    if (urgency !== 'at-once' && urgency !== 'within-1h') return true
    if (isNothing) return isExplained || (state === 'owed' && urgency === 'within-1h')
    if (state === 'owed') return true
    const ahead = lookAgainAt === null ? Number.POSITIVE_INFINITY : Date.parse(lookAgainAt) - now
    return isAtHome && ahead <= LOOK_HOURS[urgency] * 3_600_000
  }
  const misfits = closing.filter((one) => !fits(one))
  const [worst] = misfits.toSorted((a, b) => urgencyRank[b.urgency] - urgencyRank[a.urgency])
  if (!worst || (worst.urgency !== 'at-once' && worst.urgency !== 'within-1h')) return []
  const what = [...new Set(misfits.map(({ code }) => findingLabels[code].toLowerCase()))].join(', ')
  return [
    {
      field: 'agreed',
      value: agreed.join(', '),
      message: `does not close what is ${urgencyLabels[worst.urgency].toLowerCase()} (${what}); accepted: ${list(seen)}; or ${list(atHome)} with a time to look again within ${LOOK_HOURS[worst.urgency]} h; or nothing needed with a note that says why`,
    },
  ]
}

const list = (agreed: readonly Agreed[]) => agreed.map((one) => agreedLabels[one].toLowerCase()).join(', ')
