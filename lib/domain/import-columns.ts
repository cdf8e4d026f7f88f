import { UNCONFIRMED_MAX_ML } from './limits.ts'
import { Appearance, DressingFound, Ease, General, Position, Skin } from './words.ts'

/** One column of a file of reports: what it says and what is accepted. An empty value says nothing of it. */
export type ImportColumn = { name: string; isNeeded: boolean; about: string; accepted: string }

const column = <Name extends string>(name: Name, about: string, accepted: string) => ({
  name,
  isNeeded: false,
  about,
  accepted,
})
const needed = <Name extends string>(name: Name, about: string, accepted: string) => ({
  ...column(name, about, accepted),
  isNeeded: true,
})
const yesNo = 'yes or no'
const words = (list: readonly string[]) => list.join(', ')

/** The columns of a file of reports, in any order. docs/record-format.md shows the same table. */
export const importColumns = [
  needed(
    'record_number',
    'whose report it is: the record number of the chart',
    'a record number of this clinic',
  ),
  column(
    'drain',
    'which drain; left empty where the line says nothing of one',
    'its plain name, or its number in the order of enrolment: 1, 2',
  ),
  needed(
    'at',
    'when it was so',
    '2026-03-02 08:05 in the patient’s zone, or with an offset: 2026-03-02T08:05:00-07:00',
  ),
  column('volume_ml', 'what came out, in mL', '0 to 100000, or unknown: could not be measured'),
  column('total', 'the volume is the sum of several emptyings', yesNo),
  column('confirmed', `a volume over ${UNCONFIRMED_MAX_ML} mL is meant`, yesNo),
  column('appearance', 'how the fluid looked; beside a volume', words(Appearance.options)),
  column('flush_ml', 'what was flushed in, in mL', '0 to 100000, or unknown'),
  column('flush_ease', 'how the flush went in', words(Ease.options)),
  column('dressing_changed', 'the dressing was changed', yesNo),
  column('dressing_found', 'how it was found', words(DressingFound.options)),
  column('skin', 'the skin at the site', words(Skin.options)),
  column('temperature_c', 'body temperature in °C', '30 to 45'),
  column('chills', 'shaking chills', yesNo),
  column('pain', 'pain, 0 none, 10 worst', '0 to 10'),
  column('position', 'whether the drain is where it was', words(Position.options)),
  column('leak', 'fluid beside the tube', yesNo),
  column('draining', 'whether anything comes at all', yesNo),
  column(
    'general',
    'symptoms of the whole person, several with ; between',
    `${words(General.options)}; or none`,
  ),
  column('note', 'the reporter’s own words', 'at most 2000 characters'),
] satisfies readonly ImportColumn[]

export type ImportColumnName = (typeof importColumns)[number]['name']
