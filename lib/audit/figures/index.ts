/*
 * The figures of an audit, over whole local days of the clinic.
 *
 *   figuresWithin(tx, clinicId, { from, until }, now)   → Figures, for whoever composes them further
 *   auditFigures(staff, { from, until }, now)           → Figures
 *   readFigures(staff, { from, until }, now)            → FiguresPage;  readBehind(staff, { figure, part, from, until }, now) → PatientsBehind
 *   primaryWithin(tx, clinicId, week, now)              → the figure named beforehand for a week
 *   namePrimary(staff, { figure, why }, key, now)       → the week from which it holds
 *   matchEvents(events, flags)                          → EventMatch[]: found by which flag, how many hours ahead, or missed
 */
export { type EventToMatch, type FlagToMatch, FOUND_WITHIN_HOURS, matchEvents } from './event-match.ts'
export { auditFigures, figuresWithin } from './figures.ts'
export { namePrimary, primaryWithin } from './primary.ts'
export { readBehind, readFigures } from './read-figures.ts'
