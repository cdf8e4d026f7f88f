/** Whether changes of others reach this screen as they happen. */
export type Live = {
  state: 'connecting' | 'live' | 'lost'
  /** When the server was last heard, by this device's clock; null where it was not yet. */
  heardMs: number | null
}

/** The server beats every 3 s: after this long without a word it counts as lost. */
export const SILENCE_MS = 8_000

/** A stream that is quiet for longer than the server ever is, however open it looks, is lost. */
export const isSilent = (heardMs: number | null, openedMs: number, nowMs: number): boolean =>
  nowMs - Math.max(heardMs ?? openedMs, openedMs) >= SILENCE_MS
