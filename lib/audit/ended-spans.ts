/** From one instant up to another, in ms. */
export type Stretch = { from: number; until: number }

/** When follow-up had ended and not gone on, from its ends and resumptions in their order. */
export function endedSpans(turns: readonly { at: string; step: string }[]): Stretch[] {
  const spans: Stretch[] = []
  for (const { at, step } of turns) {
    const last = spans.at(-1)
    const isEnded = last?.until === Number.POSITIVE_INFINITY
    if (step === 'ended' && !isEnded) spans.push({ from: Date.parse(at), until: Number.POSITIVE_INFINITY })
    if (step === 'resumed' && last && isEnded) last.until = Date.parse(at)
  }
  return spans
}
