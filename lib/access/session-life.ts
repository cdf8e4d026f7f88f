import { read } from '../store/index.ts'
import { staffById } from '../store/staff.ts'

/** A session ends this long after its owner last did something, and at the latest this long after sign-in. */
export const IDLE_SECONDS = 60 * 60
export const ABSOLUTE_SECONDS = 12 * 60 * 60
/** At most this often is it noted that its owner did something. */
export const REFRESH_SECONDS = 60

type Started = { context?: { session?: { session?: { createdAt?: Date | string } } | null } } | null

/** Refuses a session to whoever may no longer sign in: the sign-in then fails like one with a wrong password. */
export async function startOnlyEnabled({ userId }: { userId: string }): Promise<false | undefined> {
  const staff = await read((tx) => staffById(tx, userId))
  return !staff || staff.disabledAt ? false : undefined
}

/**
 * Keeps a session that is being extended from outliving its absolute end. Both instants come from the library's
 * own clock, so no clock is read here.
 */
export async function clampToAbsolute<T extends { expiresAt?: Date }>(
  change: T,
  context: Started,
): Promise<{ data: T } | undefined> {
  const startedAt = context?.context?.session?.session?.createdAt
  if (!change.expiresAt || !startedAt) return undefined
  const end = new Date(new Date(startedAt).getTime() + ABSOLUTE_SECONDS * 1000)
  return { data: { ...change, expiresAt: change.expiresAt < end ? change.expiresAt : end } }
}
