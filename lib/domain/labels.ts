import type { Agreed, AttemptOutcome, Direction, SpokenTo } from './callback.ts'
import type { FlagState, FlagStepKind } from './flag.ts'
import type { EndReason } from './follow-up.ts'
import type { NoAnswerStep } from './no-answer.ts'
import type { MayDisclose } from './profile.ts'
import type { Overrides } from './record.ts'
import type { Role } from './staff.ts'
import type { Reporter } from './submission.ts'
import type { Vessel } from './vessel.ts'
import type { VisitKind, VisitState } from './visit.ts'
import type {
  Appearance,
  Confidence,
  Course,
  Drainage,
  DrainKind,
  DressingFound,
  Ease,
  FindingCode,
  General,
  Position,
  Side,
  Skin,
  StaffEventType,
  Urgency,
} from './words.ts'

/** What a screen prints for each word of the record. One place, so that every room says the same. */
type Labels<T extends string> = Readonly<Record<T, string>>

export const urgencyLabels: Labels<Urgency> = {
  'at-once': 'At once',
  'within-1h': 'Within 1 hour',
  'within-24h': 'Within 24 hours',
  'within-3d': 'Within 3 days',
  none: 'Nothing flagged',
}

export const kindLabels: Labels<DrainKind> = {
  nephrostomy: 'Nephrostomy',
  nephroureteral: 'Nephroureteral',
  biliary: 'Biliary',
  cholecystostomy: 'Cholecystostomy',
  collection: 'Abscess or collection',
  pleural: 'Pleural',
  bulb: 'Bulb (closed suction)',
}

export const sideLabels: Labels<Side> = { left: 'Left', right: 'Right', middle: 'Middle' }
export const courseLabels: Labels<Course> = {
  steady: 'Steady: should keep draining',
  resolving: 'Resolving: should dwindle',
}
export const drainageLabels: Labels<Drainage> = {
  external: 'External',
  'internal-external': 'Internal and external',
}

export const vesselLabels: Labels<Vessel> = { bag: 'Bag', bulb: 'Bulb', bottle: 'Bottle', cup: 'Cup' }
export const discloseLabels: Labels<MayDisclose> = {
  'call-back-only': 'only: please call back',
  'clinic-name': 'that the clinic calls',
  everything: 'everything',
}

export const visitLabels: Labels<VisitKind> = { exchange: 'Exchange', removal: 'Removal' }
export const visitStateLabels: Labels<VisitState> = {
  requested: 'requested',
  booked: 'booked',
  done: 'done',
  cancelled: 'called off',
}

export const endLabels: Labels<EndReason> = {
  removed: 'Every drain is out',
  transferred: 'Transferred to another team',
  died: 'Died',
  declined: 'Declined follow-up',
  'consent-withdrawn': 'Consent withdrawn',
}

export const thresholdLabels: Labels<keyof Overrides> = {
  declineRatio: 'Call below, share of usual',
  stoppedHours: 'Stopped after, hours',
  feverC: 'Fever from, °C',
  severePain: 'Severe pain from, of 10',
}

export const appearanceLabels: Labels<Appearance> = {
  clear: 'clear',
  straw: 'straw',
  pink: 'pink',
  red: 'red',
  clots: 'clots',
  cloudy: 'cloudy',
  pus: 'pus',
  'bile-green': 'bile, green',
  'bile-dark': 'bile, dark',
  enteric: 'like bowel content',
  serous: 'serous',
}

export const easeLabels: Labels<Ease> = { easy: 'easy', stiff: 'stiff', blocked: 'blocked' }
export const foundLabels: Labels<DressingFound> = {
  clean: 'clean',
  damp: 'damp',
  soiled: 'soiled',
  loosened: 'loosened',
  off: 'off',
}
export const skinLabels: Labels<Skin> = { intact: 'whole', red: 'red', broken: 'broken', pus: 'pus' }
export const positionLabels: Labels<Position> = { 'in-place': 'in place', moved: 'moved', out: 'out' }

export const generalLabels: Labels<General> = {
  'short-of-breath': 'short of breath',
  'chest-pain': 'chest pain',
  fainted: 'fainted',
  confused: 'confused',
  'heavy-bleeding': 'heavy bleeding',
  vomiting: 'vomiting',
  dizzy: 'dizzy',
}

export const eventLabels: Labels<StaffEventType> = {
  placed: 'Placed',
  exchanged: 'Exchanged',
  replaced: 'Replaced',
  removed: 'Removed',
  capped: 'Capped',
  uncapped: 'Uncapped',
  'position-checked': 'Position checked',
  'flag-closed': 'Flag closed',
}

export const findingLabels: Labels<FindingCode> = {
  'drain-out': 'Drain out',
  'drain-moved': 'Drain moved',
  'emergency-symptoms': 'Emergency symptoms',
  unwell: 'Unwell',
  'output-stopped': 'Output stopped',
  'output-decline': 'Output down',
  'output-surge': 'Output up',
  bleeding: 'Bleeding',
  'infection-signs': 'Signs of infection',
  'blocked-and-infected': 'Blocked and infected possible',
  leak: 'Leak',
  'severe-pain': 'Pain',
  'cap-failing': 'Cap not tolerated',
  'flush-blocked': 'Flush blocked',
  'flush-retained': 'Flush not coming back',
  'flush-missed': 'Flush not recorded',
  'dressing-overdue': 'Dressing due',
  'skin-broken': 'Skin broken',
  'log-missed': 'Log due',
  'exchange-due': 'Exchange to book',
  'removal-check': 'Removal to consider',
  'reading-suspect': 'Reading in doubt',
}

export const outcomeLabels: Labels<AttemptOutcome> = {
  reached: 'Reached',
  'no-answer': 'No answer',
  'left-message': 'Left a message',
  'wrong-number': 'Wrong number',
}

export const spokenLabels: Labels<SpokenTo> = {
  patient: 'Patient',
  helper: 'Helper',
  interpreter: 'Through an interpreter',
}

export const agreedLabels: Labels<Agreed> = {
  'self-care': 'Self-care explained',
  'watch-and-report': 'Watch and report',
  'clinic-visit': 'Clinic visit',
  imaging: 'Imaging',
  'exchange-booked': 'Exchange booked',
  'removal-booked': 'Removal booked',
  'emergency-department': 'To the emergency department',
  'emergency-services': 'Emergency services called',
  'nothing-needed': 'Nothing needed',
}

export const reporterLabels: Labels<Reporter> = {
  patient: 'patient',
  helper: 'helper',
  'phone-in': 'phone',
  system: 'another system',
}

export const flagStateLabels: Labels<FlagState> = {
  open: 'Open',
  owed: 'Owed a call',
  closed: 'Closed',
  ended: 'Ended',
}

export const stepLabels: Labels<FlagStepKind> = {
  opened: 'opened',
  raised: 'raised',
  owed: 'call owed',
  closed: 'closed',
  ended: 'ended by itself',
  returned: 'came back',
  'held-again': 'held again',
  eased: 'eased',
  undone: 'call taken back',
  corrected: 'call corrected',
  paused: 'deadline rests',
  resumed: 'deadline runs on',
}

export const directionLabels: Labels<Direction> = { 'we-called': 'We called', 'they-called': 'They called' }

export const noAnswerStepLabels: Labels<NoAnswerStep> = {
  'next-day': 'as many tries again the next day',
  contacts: 'the contacts, in order, one try each',
  'on-call': 'tell the person on call',
  'welfare-check': 'ask for a welfare check by local protocol',
}

export const roleLabels: Labels<Role> = {
  nurse: 'nurse',
  'charge-nurse': 'charge nurse',
  coordinator: 'coordinator',
  physician: 'physician',
  administrator: 'administrator',
}

export const confidenceLabels: Labels<Confidence> = {
  published: 'published',
  'published, secondary copy': 'published, seen in a copy',
  'from memory': 'from memory, to be verified',
  'common practice, no source': 'common practice, no source',
  'local choice': 'local choice',
}
