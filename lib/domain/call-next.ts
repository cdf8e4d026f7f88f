import type { FindingCode, Urgency } from './words.ts'

/** What local protocol usually holds ready, by finding: a reminder of whom to think of, never an order. */
const nextByCode: Partial<Record<FindingCode, string>> = {
  'drain-out':
    'Cover the site with a dressing, do not push the tube back. Tell interventional radiology at once: a tract can close within hours.',
  'drain-moved': 'Fix the tube as it is. Interventional radiology decides on imaging or exchange.',
  'emergency-symptoms': 'Emergency services if any of it is there now.',
  'output-stopped':
    'Straighten and reposition. If nothing comes, tell interventional radiology; a check of the tube or an exchange.',
  'output-decline': 'Straighten, flush as ordered. If it stays low, a check of the tube.',
  'output-surge': 'Fluids and blood tests as the responsible clinician decides.',
  bleeding:
    'Responsible clinician now; emergency department if it is heavy, goes on, or the patient is faint.',
  'infection-signs': 'Responsible clinician within the hour; same-day assessment.',
  'blocked-and-infected':
    'Emergency department now, and tell interventional radiology. Do not flush against resistance.',
  leak: 'Dry dressing; a check of the tube, since a leak often means that it is blocked or has moved.',
  'severe-pain': 'Responsible clinician; assessment the same day.',
  'cap-failing': 'Uncap and drain into a bag if it can be done at home; tell the responsible clinician.',
  'flush-blocked': 'Stop flushing. A check of the tube.',
  'flush-retained': 'A check of the tube before more is flushed in.',
  'removal-check': 'The responsible clinician decides on imaging and removal.',
  'reading-suspect': 'Enter a corrected report if the reading was mistaken.',
  'exchange-due': 'Book the exchange.',
}

const byUrgency: Partial<Record<Urgency, string>> = {
  'at-once': 'Cannot be reached: by local protocol, next of kin, then a welfare check or emergency services.',
  'within-1h':
    'Cannot be reached within the hour: next contact on the chart, then the responsible clinician.',
}

/** A call ends in few steps. */
const MOST_STEPS = 3

/** The reminders for what stands, the most pressing first, each once. */
export function callNext(standing: readonly { code: FindingCode; urgency: Urgency }[]): string[] {
  const steps = [...new Set(standing.map(({ code }) => nextByCode[code]))]
    .filter(Boolean)
    .slice(0, MOST_STEPS)
  const reach = standing.map(({ urgency }) => byUrgency[urgency]).find(Boolean)
  return [...steps, reach].filter((text) => text !== undefined)
}
