import type { AnswerKind, CallQuestion } from './call-text.ts'
import type { FindingCode } from './words.ts'

/**
 * What to ask for each finding, as shipped. Short, in the order in which a caller would ask. Common practice, no
 * source: each clinic reads them and keeps its own.
 */
const ask = (question: string, answer: AnswerKind = 'words'): CallQuestion => ({ question, answer })

const tube = ask('Tube bent, clamped, or a tap turned off?', 'yes-no')
const length = ask('Tube as long outside as before, stitch whole?', 'position')
const draining = ask('Is it draining now?', 'draining')
const inBag = ask('How much is in the bag now?', 'volume')
const temperature = ask('Temperature now?', 'temperature')
const chills = ask('Shaking or chills?', 'chills')
const general = ask('Breath, chest, faint, confused, vomiting, dizzy?', 'general')
const skin = ask('What does the skin at the tube look like?', 'skin')
const leak = ask('Wet dressing, or a leak beside the tube?', 'leak')
const pain = ask('Pain now, 0 to 10?', 'pain')
const painWhere = ask('Where is the pain, and what eases it?')
const help = ask('Who is with you, and who can drive?')
const away = ask('Anything the usual way, and how much?')
const flush = ask('Last flush: when, and how did it go in?')
const measure = ask('Measured how, with what, in which unit?')

export const callQuestions: Readonly<Record<FindingCode, readonly CallQuestion[]>> = {
  'drain-out': [ask('Out since when, and the whole tube?'), leak, skin, chills, general, help],
  'drain-moved': [length, draining, leak, pain, help],
  'emergency-symptoms': [general, ask('Better or worse than when it was reported?'), help],
  unwell: [ask('Do drinks stay down?', 'yes-no'), general, temperature],
  'output-stopped': [tube, length, draining, flush, away, temperature, help],
  'output-decline': [tube, length, flush, away, temperature, chills],
  'output-surge': [measure, general, ask('How much do you drink, and do you pass it?')],
  bleeding: [
    ask('How red, how much, any clots? Blood thinners?'),
    general,
    ask('Was the tube pulled or knocked?', 'yes-no'),
    help,
  ],
  'infection-signs': [temperature, chills, general, skin, help],
  'blocked-and-infected': [temperature, chills, general, tube, length, away, help],
  leak: [leak, skin, tube, length, flush],
  'severe-pain': [pain, painWhere, tube, temperature],
  'cap-failing': [ask('Can you open the cap?', 'yes-no'), temperature, pain, leak],
  'flush-blocked': [tube, flush, ask('Did it hurt?', 'yes-no')],
  'flush-retained': [flush, tube, pain],
  'flush-missed': [flush, ask('Are there syringes and saline left?', 'yes-no')],
  'dressing-overdue': [skin, leak, ask('Are dressings left, and who changes it?')],
  'skin-broken': [skin, leak, pain],
  'log-missed': [draining, inBag, temperature, pain, ask('What keeps you from logging?')],
  'exchange-due': [ask('Which days suit for the exchange?')],
  'removal-check': [temperature, pain, measure],
  'reading-suspect': [measure, ask('At what time was this reading?')],
}
