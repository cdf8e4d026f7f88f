import type { AdviceName } from './advice-text.ts'

export type AdviceUrgency = 'emergency' | 'call-now' | 'call-today' | 'information'

/**
 * How soon each text has a person act. The order is that in which texts are read: the most urgent first. Apart
 * from the schemas, since the check-in page needs it on an old phone.
 */
export const adviceUrgency: Readonly<Record<AdviceName, AdviceUrgency>> = {
  'emergency-symptoms': 'emergency',
  'bleeding-and-faint': 'emergency',
  'drain-out': 'emergency',
  'blocked-and-infected': 'emergency',
  'bulb-out': 'call-now',
  fever: 'call-now',
  'cap-failing': 'call-now',
  'not-draining': 'call-now',
  'drain-moved': 'call-now',
  bleeding: 'call-now',
  'severe-pain': 'call-now',
  leak: 'call-now',
  'large-volume-now': 'call-now',
  'high-output': 'call-now',
  'large-volume': 'call-today',
  'high-output-today': 'call-today',
  'flush-blocked': 'call-today',
  'pink-fluid': 'call-today',
  'cloudy-fluid': 'call-today',
  skin: 'call-today',
  unwell: 'call-today',
  dressing: 'call-today',
  'keep-watching': 'information',
  'clinic-first': 'information',
}

/** The names of all texts, in the order in which they are read. */
export const adviceNames = Object.keys(adviceUrgency) as AdviceName[]
