/**
 * Limits of one submission. Apart from the schemas that enforce them, so that the check-in page can ask
 * again before it sends, without loading the schemas on an old phone.
 */

/** Most volume that one reading takes without being confirmed, in mL. */
export const UNCONFIRMED_MAX_ML = 5000
/** Most volume that a reading or a flush takes at all, in mL. */
export const VOLUME_MAX_ML = 100_000
/** Coldest and hottest body temperature that is taken, in °C. */
export const TEMPERATURE_MIN_C = 30
export const TEMPERATURE_MAX_C = 45
/** Most characters of the reporter's own words. */
export const NOTE_MAX = 2000
