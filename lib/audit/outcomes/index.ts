/*
 * What became of the patients. Each takes the member of staff, what was sent, a key for what stores, and the instant.
 *
 *   recordOutsideEvent(staff, patientId, { drain?, kind, at, note? }, key, now)            → OutcomeSaved
 *   answerInquiry(staff, patientId, { about, answer, note?, events? }, key, now)           → OutcomeSaved
 *   withdrawOutsideEvent(staff, patientId, eventId, { why }, key, now)                     → { event }
 *   readOutcomes(staff, now) → OutcomesPage;  readOutcomePatient(staff, patientId, now)    → OutcomePatient
 */
export { answerInquiry } from './answer-inquiry.ts'
export { readOutcomePatient, readOutcomes } from './read-outcomes.ts'
export { recordOutsideEvent } from './record-event.ts'
export { withdrawOutsideEvent } from './withdraw-event.ts'
