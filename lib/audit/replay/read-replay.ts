import { recordAccess } from '../../access/record.ts'
import { now as clock } from '../../clock.ts'
import { Refusal } from '../../domain/problem.ts'
import type { Replay } from '../../domain/replay.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { read, type Tx, write } from '../../store/index.ts'
import { endReplay, type KeptReplay, replayById } from '../../store/replays.ts'
import { stored } from '../../store/rows.ts'
import { stop } from './launch.ts'
import { endLost, isLost } from './lost.ts'

const UNFINISHED = new Set<Replay['state']>(['waiting', 'running'])

/**
 * How a replay stands, with what it found. Reading a result that names patients is recorded; following its progress is not.
 * @throws Refusal not-found
 */
export async function readReplay(staff: StaffMember, id: string, now: Date = clock()): Promise<Replay> {
  const kept = await read((tx) => found(tx, staff, id))
  const { replay } = kept
  if (UNFINISHED.has(replay.state) && isLost(kept, now)) {
    await write((tx) => endLost(tx, staff.clinicId, now))
    return (await read((tx) => found(tx, staff, id))).replay
  }
  if (replay.result && replay.result.differ.length > 0)
    await write((tx) =>
      note(
        tx,
        staff,
        now,
        'read-replay',
        `read the replay ${id}, which names ${replay.result?.differ.length} patients`,
      ),
    )
  return replay
}

/**
 * Cancels a replay that waits or runs. One that is over stays as it is.
 * @throws Refusal not-found
 */
export async function cancelReplay(
  staff: StaffMember,
  id: string,
  now: Date = clock(),
): Promise<{ state: Replay['state'] }> {
  const state = await write(async (tx) => {
    const { replay } = await found(tx, staff, id)
    const trouble = `${staff.name} cancelled it.`
    if (!(await endReplay(tx, id, { state: 'cancelled', trouble }, stored(now)))) return replay.state
    await note(tx, staff, now, 'replay', `cancelled the replay ${id}`)
    return 'cancelled' as const
  })
  stop(id)
  return { state }
}

async function found(tx: Tx, { clinicId }: StaffMember, id: string): Promise<KeptReplay> {
  const kept = await replayById(tx, clinicId, id)
  if (!kept) throw new Refusal('not-found', 'This clinic has no such replay.')
  return kept
}

const note = (tx: Tx, staff: StaffMember, now: Date, action: string, what: string) =>
  recordAccess(tx, {
    ...{ clinicId: staff.clinicId, at: stored(now), staffId: staff.id, actor: staff.name },
    ...{ action, patientId: null, what },
  })
