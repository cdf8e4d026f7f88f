import type {
  Appearance,
  DrainKind,
  DressingFound,
  Ease,
  General,
  Position,
  Skin,
} from '@/lib/domain/words.ts'
import type { DrainAnswers, VolumeUnit, YesNo } from '../answers/draft.ts'

/** Questions and answers in a person's words, beside the record's words that they stand for. */
type Options<T extends string> = readonly (readonly [T, string])[]

export const generalOptions: Options<General> = [
  ['short-of-breath', 'Hard to breathe'],
  ['chest-pain', 'Chest pain'],
  ['fainted', 'Fainted or passed out'],
  ['confused', 'Confused, not thinking clearly'],
  ['heavy-bleeding', 'Heavy bleeding'],
  ['vomiting', 'Throwing up'],
  ['dizzy', 'Dizzy or light-headed'],
]
export const noneOfThese = 'None of these'

export const yesNo: Options<YesNo> = [
  ['yes', 'Yes'],
  ['no', 'No'],
  ['unsure', 'Not sure'],
]

export const doneOptions: Options<'yes' | 'no'> = [
  ['yes', 'Yes'],
  ['no', 'No'],
]

export const positionOptions: Options<Position | 'unsure'> = [
  ['in-place', 'Where it always is'],
  ['moved', 'It has moved, or more of it is outside'],
  ['out', 'It came out'],
  ['unsure', 'Not sure'],
]

export const outputOptions: Options<NonNullable<DrainAnswers['output']>> = [
  ['measured', 'I measured it'],
  ['nothing', 'Nothing came out'],
  ['not-measured', 'Some came out, but I could not measure'],
  ['not-emptied', 'I did not empty it'],
]

export const unitOptions: Options<VolumeUnit> = [
  ['mL', 'mL (cc)'],
  ['oz', 'US ounces'],
  ['cup', 'US cups'],
]

export const emptyingOptions: Options<NonNullable<DrainAnswers['emptyings']>> = [
  ['one', 'One time'],
  ['several', 'More than one time, added up'],
]

export const easeOptions: Options<Ease> = [
  ['easy', 'It went in easily'],
  ['stiff', 'It was hard to push'],
  ['blocked', 'It would not go in'],
]

export const foundOptions: Options<DressingFound | 'unsure'> = [
  ['clean', 'Clean and dry'],
  ['damp', 'Damp or wet'],
  ['soiled', 'Dirty or stained'],
  ['loosened', 'Coming loose'],
  ['off', 'It had come off'],
  ['unsure', 'Not sure'],
]

export const skinOptions: Options<Skin | 'unsure'> = [
  ['intact', 'As always'],
  ['red', 'Red'],
  ['broken', 'Sore or broken'],
  ['pus', 'Pus'],
  ['unsure', 'I cannot see it'],
]

const looks: Record<Appearance, string> = {
  clear: 'Clear like water',
  straw: 'Yellow',
  serous: 'Thin and pale yellow',
  pink: 'Pink',
  red: 'Red',
  clots: 'Red with clots (dark lumps)',
  cloudy: 'Cloudy',
  pus: 'Thick, like pus',
  'bile-green': 'Green or yellow-green',
  'bile-dark': 'Dark green or brown',
  enteric: 'Brown, like stool',
}

const urine: Appearance[] = ['straw', 'clear', 'pink', 'red', 'clots', 'cloudy', 'pus']
const bile: Appearance[] = ['bile-green', 'bile-dark', 'clear', 'pink', 'red', 'clots', 'cloudy', 'pus']
const wound: Appearance[] = ['serous', 'clear', 'pink', 'red', 'clots', 'cloudy', 'pus']
const usualLooks: Record<DrainKind, Appearance[]> = {
  nephrostomy: urine,
  nephroureteral: urine,
  biliary: bile,
  cholecystostomy: bile,
  collection: [...wound, 'bile-green', 'enteric'],
  pleural: wound,
  bulb: wound,
}

/** How the fluid of this kind of drain may look; what is asked for, not what may be. */
export const looksOptions = (kind: DrainKind): Options<Appearance | 'unsure'> => [
  ...usualLooks[kind].map((word) => [word, looks[word]] as const),
  ['unsure', 'Something else, or not sure'],
]

/** The words of one answer, for the summary. */
export const wordsOf = <T extends string>(options: Options<T>, value: T | undefined): string | undefined =>
  options.find(([word]) => word === value)?.[1]

export const questions = {
  general: 'Do you have any of these now?',
  generalHint: 'Choose all that fit.',
  position: 'Where is the tube?',
  leak: 'Is fluid leaking out around the tube?',
  draining: 'Is fluid coming through the tube?',
  output: 'How much came out since you last emptied?',
  volume: 'How much?',
  unit: 'What does your cup or bag show?',
  emptyings: 'How often did you empty to get this much?',
  outputWhen: 'When did you empty?',
  looks: 'How does the fluid look?',
  flushed: 'Did you flush since your last report?',
  flushVolume: 'How much did you put in, in mL?',
  flushEase: 'How did it go?',
  flushWhen: 'When did you flush?',
  dressingChanged: 'Did you change the dressing since your last report?',
  dressingWhen: 'When did you change it?',
  found: 'How did you find the dressing?',
  skin: 'How is the skin around the tube?',
  temperature: 'What is your temperature?',
  temperatureHint: 'As the thermometer shows it, °C or °F.',
  noThermometer: 'I have no thermometer',
  chills: 'Do you have chills or shaking?',
  pain: 'How bad is your pain?',
  painHint: '0 is none. 10 is the worst you can think of.',
  now: 'Just now',
  earlier: 'Earlier',
  day: 'Day',
  time: 'Time',
} as const

export const titles = {
  feel: 'How do you feel?',
  tube: (label: string) => `The tube: ${label}`,
  output: (label: string) => `What came out: ${label}`,
  flush: (label: string) => `Flush: ${label}`,
  dressing: (label: string) => `Dressing: ${label}`,
  body: 'Temperature and pain',
} as const
