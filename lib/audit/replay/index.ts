/*
 * The replay: a rule set run over the clinic's real history, as it was known at each moment. Each takes the member of staff;
 * how it is run stands in docs/decisions/replay.md.
 */
export { replayHead } from './head.ts'
export { cancelReplay, readReplay } from './read-replay.ts'
export { readReplayPatient } from './read-replay-patient.ts'
export { type ReplayStarted, startReplay } from './start-replay.ts'
