import { z } from 'zod'

/** Of how few patients something may not be named or counted. */
export const FEW_PATIENTS = 5
/** Stands for what only few patients have, and for what would tell it. */
export const WITHHELD = 'withheld'
/** Stands for a count under FEW_PATIENTS, nothing included. */
export const UNDER_FEW = `<${FEW_PATIENTS}`

/** Stands for a kind in the row that says how many patients are in no file. */
export const LEFT_OUT = 'left out: consent withdrawn'

export const RegistryFile = z.enum(
  ['drains.csv', 'flags.csv', 'events.csv', 'counts.csv', 'dictionary.csv'],
  { error: 'accepted: drains.csv, flags.csv, events.csv, counts.csv, dictionary.csv' },
)
export type RegistryFile = z.infer<typeof RegistryFile>

export const registryFiles: readonly { file: RegistryFile; says: string }[] = [
  { file: 'drains.csv', says: 'one row a drain' },
  { file: 'flags.csv', says: 'one row a flag, with its verdict' },
  { file: 'events.csv', says: 'one row an event outside the clinic' },
  { file: 'counts.csv', says: 'patients and flags by kind of drain and finding, days by kind' },
  { file: 'dictionary.csv', says: 'what each column means' },
]

type Column = { name: string; unit: string; values: string; meaning: string }

const study: Column = {
  name: 'study_id',
  unit: '',
  values: '12 letters',
  meaning:
    'One patient within this file. Drawn at random for each file; which patient it was is kept nowhere.',
}
const age: Column = {
  name: 'age_group',
  unit: 'years',
  values: `0-9, 10-19, …, 80-89, 90 or over, ${WITHHELD}`,
  meaning:
    'Age when the first drain was placed, in tens of years; withheld where few patients are of the group.',
}
const kind: Column = {
  name: 'kind',
  unit: '',
  values: `nephrostomy, nephroureteral, biliary, cholecystostomy, collection, pleural, bulb, ${WITHHELD}`,
  meaning:
    'Kind of the drain; withheld where few patients have one, or have one with what the row tells. Empty: of the whole patient.',
}
const finding = (values: string): Column => ({
  name: 'finding',
  unit: '',
  values,
  meaning: 'What the rules found.',
})
const count = (name: string, meaning: string): Column => ({
  name,
  unit: 'count',
  values: '0 or more',
  meaning,
})
const day = (meaning: string): Column => ({
  name: 'day',
  unit: 'days',
  values: 'a whole number; negative: before',
  meaning: `${meaning}, in whole days of 24 h since the drain was placed (of the whole patient: the first drain).`,
})
const codes = 'codes of findings, as the clinical basis lists them'

/** Every column of every file, in its order: the files and their dictionary are made from this. */
export const registryColumns: Readonly<Record<Exclude<RegistryFile, 'dictionary.csv'>, readonly Column[]>> = {
  'drains.csv': [
    study,
    {
      name: 'drain_no',
      unit: '',
      values: '1, 2, …',
      meaning: 'The patient’s drains in the order of enrolment.',
    },
    age,
    kind,
    {
      name: 'days_followed',
      unit: 'days',
      values: '0 or more; empty: it is followed still, or its end is withheld',
      meaning:
        'From the later of placement and enrolment to removal or the end of follow-up. Not told while it is followed: with the day of the export it would tell the date of placement.',
    },
    {
      name: 'ended',
      unit: '',
      values: `drain-removed, removed, transferred, died, declined, followed, ${WITHHELD}`,
      meaning: 'Why it is followed no longer; followed: it still is. Withheld where few patients share it.',
    },
    count('exchanges', 'Exchanges and replacements of the tube.'),
    count('readings', 'Readings of output that were received.'),
  ],
  'flags.csv': [
    study,
    age,
    kind,
    finding(`${codes}, ${WITHHELD}`),
    {
      name: 'nature',
      unit: '',
      values: 'clinical, upkeep',
      meaning: 'A clinical finding, or care that is due.',
    },
    {
      name: 'urgency',
      unit: '',
      values: 'at-once, within-1h, within-24h, within-3d',
      meaning: 'The urgency that the flag last had.',
    },
    day('When it opened'),
    {
      name: 'hours_to_attempt',
      unit: 'h',
      values: 'to a tenth; empty: none while it stood',
      meaning: 'From opening to the first call, answered or not.',
    },
    {
      name: 'hours_to_reached',
      unit: 'h',
      values: 'to a tenth; empty: nobody was reached while it stood',
      meaning: 'From opening to the first call that reached somebody.',
    },
    {
      name: 'state',
      unit: '',
      values: 'open, owed, closed, ended',
      meaning: 'Closed by a person, ended by itself, standing, or standing until somebody has called.',
    },
    {
      name: 'verdict',
      unit: '',
      values: 'warranted, warranted-late, not-warranted, cannot-tell; empty: none that holds',
      meaning: 'What the audit made of it; only a sample is read.',
    },
  ],
  'events.csv': [
    study,
    age,
    kind,
    {
      name: 'event',
      unit: '',
      values: `emergency-visit, admission, exchange, obstruction, infection, dislodgement, bleeding, leak, death, other, ${WITHHELD}`,
      meaning: 'What became known from outside the clinic’s own calls.',
    },
    day('When it happened'),
  ],
  'counts.csv': [
    {
      ...kind,
      values: `every kind; whole patient; ${LEFT_OUT}`,
      meaning: 'Kind of the drain. The last row says how many patients are in no file.',
    },
    finding(`${codes}; empty: the kind in all`),
    {
      name: 'patients',
      unit: 'count',
      values: `a number, ${UNDER_FEW}, ${WITHHELD}`,
      meaning: `Patients with at least one such flag, or, without a finding, with such a drain; under ${FEW_PATIENTS}, none included, it is ${UNDER_FEW}. Withheld where the others would tell it.`,
    },
    {
      name: 'flags',
      unit: 'count',
      values: `a number, ${UNDER_FEW}, ${WITHHELD}; empty: the kind in all`,
      meaning: `Such flags; withheld as the patients are.`,
    },
    {
      name: 'days',
      unit: 'days',
      values: `a whole number, ${WITHHELD}; empty: of a finding`,
      meaning:
        'Days at risk at home until the export: in place, in follow-up, not in hospital. Catheter-days of the kind; of the whole patient, patient-days with any drain. Withheld with the kind, and where a few drains’ days would be left over.',
    },
    {
      name: 'silent_days',
      unit: 'patient-days',
      values: `a whole number, ${WITHHELD}; empty: of a finding`,
      meaning:
        'Of a patient’s days with such a drain, those on which nothing was received. Withheld as the days are.',
    },
  ],
}
