import type { AdviceName } from '@/lib/domain/advice-text.ts'
import type { AdviceUrgency } from '@/lib/domain/advice-urgency.ts'

/** When a patient reads each text, in the words of staff. */
export const caseLabels: Readonly<Record<AdviceName, string>> = {
  'emergency-symptoms': 'Short of breath, chest pain, fainted, confused or heavy bleeding',
  'bleeding-and-faint': 'Blood in the drain with fainting or dizziness',
  'drain-out': 'A drain is out',
  'blocked-and-infected': 'Fever or chills with a urinary or biliary drain that may not drain',
  'bulb-out': 'A bulb drain is out',
  fever: 'Fever or chills',
  'cap-failing': 'A capped drain with fever, leak or pain',
  'not-draining': 'A drain that should drain does not, or brings little',
  'drain-moved': 'A drain has moved',
  bleeding: 'Red fluid or clots',
  'severe-pain': 'Severe pain',
  leak: 'A leak at the site',
  'large-volume-now': 'A very large pleural volume at one time',
  'high-output': 'Far too much output',
  'large-volume': 'A large pleural volume at one time',
  'high-output-today': 'More output than expected, or it turned to bile or bowel content',
  'flush-blocked': 'A flush will not go in',
  'pink-fluid': 'Pink fluid after the first days',
  'cloudy-fluid': 'Cloudy fluid or pus',
  skin: 'Red or broken skin, or pus at the site',
  unwell: 'Vomiting or dizzy, or pain that has risen',
  dressing: 'A bad dressing that was left on, or an overdue one',
  'keep-watching': 'None of the others',
  'clinic-first': 'Always, at the end',
}

export const adviceUrgencyLabels: Readonly<Record<AdviceUrgency, string>> = {
  emergency: 'Emergency',
  'call-now': 'Call now',
  'call-today': 'Call today',
  information: 'For information',
}
