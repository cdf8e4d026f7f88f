import type { FindingCode, Urgency } from './words.ts'

/**
 * What to advise and when to call whom, by finding, as shipped: a reminder of what local protocol usually holds
 * ready, never an order. Common practice, no source: each clinic reads them and keeps its own.
 */
type Next = { advise: readonly string[]; escalate: readonly string[] }

const noForce = 'Never push against resistance.'

export const callNext: Readonly<Record<FindingCode, Next>> = {
  'drain-out': {
    advise: ['Cover the site with a dressing; do not push the tube back.'],
    escalate: ['Interventional radiology at once: a tract can close within hours.'],
  },
  'drain-moved': {
    advise: ['Fix the tube as it is; neither pull nor push it.'],
    escalate: ['Interventional radiology decides on imaging or exchange.'],
  },
  'emergency-symptoms': {
    advise: ['Stay with somebody until help has come.'],
    escalate: ['Emergency services if any of it is there now.'],
  },
  unwell: {
    advise: ['Small sips; call again when it gets worse.'],
    escalate: ['Drinks do not stay down: the responsible clinician the same day.'],
  },
  'output-stopped': {
    advise: ['Straighten the tube, open taps and clamps, change position.', noForce],
    escalate: ['Nothing comes: interventional radiology; a check of the tube or an exchange.'],
  },
  'output-decline': {
    advise: ['Straighten the tube; flush as ordered.', noForce],
    escalate: ['It stays low: a check of the tube.'],
  },
  'output-surge': {
    advise: ['Measure every emptying; call at once when dizzy or faint.'],
    escalate: ['The responsible clinician decides on fluids and blood tests.'],
  },
  bleeding: {
    advise: ['Rest, and leave the tube as it is.'],
    escalate: [
      'Responsible clinician now; emergency department if it is heavy, goes on, or the patient is faint.',
    ],
  },
  'infection-signs': {
    advise: ['Call at once when it gets worse.'],
    escalate: ['Responsible clinician within the hour; same-day assessment.'],
  },
  'blocked-and-infected': {
    advise: [noForce],
    escalate: ['Emergency department now, and tell interventional radiology.'],
  },
  leak: {
    advise: ['A dry dressing; keep the tube straight.'],
    escalate: ['A check of the tube: a leak often means that it is blocked or has moved.'],
  },
  'severe-pain': {
    advise: ['Medicines for pain as prescribed.'],
    escalate: ['Responsible clinician; assessment the same day.'],
  },
  'cap-failing': {
    advise: ['Uncap and drain into a bag if it can be done at home.'],
    escalate: ['Tell the responsible clinician.'],
  },
  'flush-blocked': { advise: ['Stop flushing.', noForce], escalate: ['A check of the tube.'] },
  'flush-retained': {
    advise: ['Flush no more until it was looked into.'],
    escalate: ['A check of the tube before more is flushed in.'],
  },
  'flush-missed': {
    advise: ['Flush as ordered.', noForce],
    escalate: ['A flush that does not go in: a check of the tube.'],
  },
  'dressing-overdue': {
    advise: ['Change the dressing today.'],
    escalate: ['Nobody there who can: a visit.'],
  },
  'skin-broken': {
    advise: ['Clean and dry, with a new dressing.'],
    escalate: ['Pus, or redness that spreads: the responsible clinician the same day.'],
  },
  'log-missed': {
    advise: ['Measure at the next emptying, and log it.'],
    escalate: ['Not draining, or unwell: as for a drain that has stopped.'],
  },
  'exchange-due': {
    advise: ['Agree on a day, and book the exchange.'],
    escalate: ['No day before it is due: the responsible clinician.'],
  },
  'removal-check': {
    advise: ['Go on as ordered until it is decided.'],
    escalate: ['The responsible clinician decides on imaging and removal.'],
  },
  'reading-suspect': {
    advise: ['Enter a corrected report if the reading was mistaken.'],
    escalate: ['The reading was right: act on it as it stands.'],
  },
}

const byUrgency: Partial<Record<Urgency, string>> = {
  'at-once': 'Cannot be reached: by local protocol, next of kin, then a welfare check or emergency services.',
  'within-1h':
    'Cannot be reached within the hour: next contact on the chart, then the responsible clinician.',
}

/** What follows where nobody is reached, for the most pressing of what stands; null where it can wait. */
export const notReached = (standing: readonly { urgency: Urgency }[]): string | null =>
  standing.map(({ urgency }) => byUrgency[urgency]).find((text) => text !== undefined) ?? null
