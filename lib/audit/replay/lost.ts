import { Refusal } from '../../domain/problem.ts'
import type { Tx } from '../../store/index.ts'
import { endReplay, type KeptReplay, unfinishedReplays } from '../../store/replays.ts'
import { stored } from '../../store/rows.ts'

/** After how long without a sign of life a replay counts as lost: its server has ended. */
const LOST_MS = 60_000

/** Whether nothing has been heard of a replay's process for too long. */
export const isLost = ({ beatAt }: KeptReplay, now: Date) => now.getTime() - Date.parse(beatAt) > LOST_MS

/** Ends the replays of a clinic whose server has ended with them. They left nothing behind, and can be started again. */
export async function endLost(tx: Tx, clinicId: string, now: Date): Promise<void> {
  for (const kept of (await unfinishedReplays(tx, clinicId)).rows)
    if (isLost(kept, now))
      await endReplay(
        tx,
        kept.replay.id,
        { state: 'failed', trouble: 'The server was stopped while it ran. Start it again.' },
        stored(now),
      )
}

/** @throws Refusal conflict, where a replay of this clinic runs */
export async function refuseWhileRunning(tx: Tx, clinicId: string, now: Date): Promise<void> {
  await endLost(tx, clinicId, now)
  const [other] = (await unfinishedReplays(tx, clinicId)).rows
  if (other)
    throw new Refusal(
      'conflict',
      `A replay that ${other.replay.by} started is running: wait until it is done, or cancel it.`,
    )
}
