import { z } from 'zod'
import { type Confidence, Urgency } from './words.ts'

/** The urgencies that a patient can be flagged with, the most urgent first. */
export const FlaggedUrgency = Urgency.exclude(['none'])
export type FlaggedUrgency = z.infer<typeof FlaggedUrgency>

const minutes = (least: number, most: number) => {
  const error = `accepted: whole minutes from ${least} to ${most}`
  return z.int({ error }).min(least, error).max(most, error)
}

/** Who is told of what stands: nobody (the worklist is read), or the person on call until they say 'I have it'. */
export const AfterHoursCell = z
  .strictObject({
    tell: z.enum(['nobody', 'on-call'], { error: 'accepted: nobody, on-call' }),
    channel: z.enum(['email', 'gateway', 'both'], { error: 'accepted: email, gateway, both' }),
    /** How long after one message the next one goes to the same person. */
    repeatMinutes: minutes(2, 60),
    /** How long after the first message to a person the next person is told instead. */
    passOnMinutes: minutes(2, 240),
  })
  .refine(({ repeatMinutes, passOnMinutes }) => passOnMinutes >= repeatMinutes, {
    path: ['passOnMinutes'],
    error: 'accepted: no sooner than the first repeat',
  })
export type AfterHoursCell = z.infer<typeof AfterHoursCell>

/** What waits for a day or longer never leads to a message at night: there is nothing to set. */
const Waits = AfterHoursCell.refine(({ tell }) => tell === 'nobody', {
  path: ['tell'],
  error: 'accepted: nobody; what can wait for a day is not called about at night',
})

const Row = z.strictObject({
  'at-once': AfterHoursCell,
  'within-1h': AfterHoursCell,
  'within-24h': Waits,
  'within-3d': Waits,
})

/** Urgency by hours: who is told, by which way, repeated and passed on when. */
export const AfterHours = z.strictObject({ open: Row, closed: Row })
export type AfterHours = z.infer<typeof AfterHours>

const nobody: AfterHoursCell = { tell: 'nobody', channel: 'both', repeatMinutes: 10, passOnMinutes: 20 }

/** Where a clinic has set none. */
export const standardAfterHours: AfterHours = {
  open: {
    'at-once': { ...nobody, repeatMinutes: 5, passOnMinutes: 10 },
    'within-1h': nobody,
    'within-24h': nobody,
    'within-3d': nobody,
  },
  closed: {
    'at-once': { tell: 'on-call', channel: 'both', repeatMinutes: 5, passOnMinutes: 10 },
    'within-1h': { tell: 'on-call', channel: 'both', repeatMinutes: 10, passOnMinutes: 20 },
    'within-24h': nobody,
    'within-3d': nobody,
  },
}
/** No source was found for any of its numbers. */
export const afterHoursConfidence: Confidence = 'local choice'

/** What the table says of an urgency; nothing flagged is told to nobody. */
export const cellOf = (table: AfterHours, urgency: Urgency, isOpen: boolean): AfterHoursCell =>
  urgency === 'none' ? nobody : table[isOpen ? 'open' : 'closed'][urgency]

/** The table as its screen reads it. */
export const AfterHoursPage = z.strictObject({
  table: AfterHours,
  isStandard: z.boolean(),
  /** Null where the clinic has not said when it is open: then nobody is called after hours. */
  hoursAreSet: z.boolean(),
  changedAt: z.string().nullable(),
  changedBy: z.string().nullable(),
  /** What keeps anybody from being told now, one sentence each. */
  troubles: z.array(z.string()),
})
export type AfterHoursPage = z.infer<typeof AfterHoursPage>
