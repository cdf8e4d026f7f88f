import type { Facts } from './facts.ts'
import type { Opening } from './openings.ts'

/**
 * What shut a call out, and until when it could be seen: `gone` when the drain of the flags came out, or the patient died; `lost`
 * when follow-up ended otherwise, the flags ended by themselves, or now.
 */
export function endingOf(
  { removals, deaths, ended, now }: Pick<Facts, 'removals' | 'deaths' | 'ended' | 'now'>,
  { patient, at, flags }: Pick<Opening, 'patient' | 'at' | 'flags'>,
): { gone: number | null; lost: number } {
  const end = ended.get(patient)
  const endedAt = end?.followUpEndedAt ? Date.parse(end.followUpEndedAt) : null
  const isAfter = endedAt !== null && endedAt >= at
  const isGone = end?.followUpEnd === 'died' || end?.followUpEnd === 'removed'
  const gone = [...(deaths.get(patient) ?? [])]
  if (isAfter && isGone) gone.push(endedAt)
  const out = flags.map(({ drain }) => removals.get(drain ?? '')?.find((removed) => removed >= at))
  const known = out.filter((removed) => removed !== undefined)
  if (known.length === out.length) gone.push(Math.max(...known))

  const lost = [now]
  if (isAfter && !isGone) lost.push(endedAt)
  const alone = flags.flatMap((flag) =>
    flag.state === 'ended' && flag.endedAt ? [Date.parse(flag.endedAt)] : [],
  )
  if (alone.length === flags.length) lost.push(Math.max(...alone))
  return { gone: gone.length > 0 ? Math.min(...gone) : null, lost: Math.min(...lost) }
}
