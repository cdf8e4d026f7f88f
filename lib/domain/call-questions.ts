import type { FindingCode } from './words.ts'

/** What to ask for each finding. Short, in the order in which a caller would ask. A clinic may read and approve each. */
const tube = 'Is the tube bent, clamped, or a tap turned off?'
const length = 'Is the tube as long outside as before? Is the stitch or fastener whole?'
const infection = 'Shaking, confused, vomiting, short of breath?'
const site = 'What does the skin at the tube look like? Is it wet?'
const help = 'Who is with you, and who can drive?'
const away = 'Anything coming the usual way, and how much?'
const flush = 'When was it last flushed, and how did it go in?'
const measure = 'How was it measured, with what, and in which unit?'
const blood = 'How red, how much, any clots? Blood thinners?'
const faint = 'Dizzy, faint, a fast heartbeat?'
const pain = 'Where is the pain, how bad now, and what eases it?'
const drinking = 'How much did you drink, and do you pass it?'

export const callQuestions: Readonly<Record<FindingCode, readonly string[]>> = {
  'drain-out': ['When did it come out? Is the whole tube there?', site, infection, help],
  'drain-moved': [length, 'Does it still drain?', site, pain, help],
  'emergency-symptoms': ['What is it like right now? Better or worse?', help],
  unwell: ['Can you keep drinks down?', faint, infection],
  'output-stopped': [tube, length, flush, away, infection, help],
  'output-decline': [tube, length, flush, away, infection],
  'output-surge': [measure, faint, drinking],
  bleeding: [blood, faint, 'Was the tube pulled or knocked?', help],
  'infection-signs': [infection, 'When was the temperature taken, and what is it now?', site, help],
  'blocked-and-infected': [tube, infection, site, length, away, help],
  leak: [site, tube, length, flush],
  'severe-pain': [pain, tube, infection],
  'cap-failing': ['Can you open the cap?', infection, site, pain],
  'flush-blocked': [tube, flush, 'Please do not push against resistance. Did it hurt?'],
  'flush-retained': [flush, tube, pain],
  'flush-missed': [flush, 'Are there syringes and saline left?'],
  'dressing-overdue': [site, 'Are there dressings left? Who changes it?'],
  'skin-broken': [site, pain],
  'log-missed': ['How are you, and is it draining?', 'What keeps you from logging?', tube],
  'exchange-due': ['Which days suit for the exchange?'],
  'removal-check': ['Any fever or pain these days?', measure],
  'reading-suspect': [measure, 'What was the time of this reading?'],
}
