import { recordAccess } from '../../access/record.ts'
import { now as clock } from '../../clock.ts'
import { Refusal } from '../../domain/problem.ts'
import type { ReplayedLife, ReplayPatient } from '../../domain/replay.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { clinicById } from '../../store/clinics.ts'
import { snapshot, write } from '../../store/index.ts'
import { historiesOf, namesOf } from '../../store/replay-history.ts'
import { replayById } from '../../store/replays.ts'
import { stored } from '../../store/rows.ts'
import { ruleSetsOf } from '../../store/rule-sets.ts'
import { paired, shownFlag } from './compare.ts'
import { inForceOf } from './in-force.ts'
import type { Life } from './kept.ts'
import { replayPatient } from './replay-patient.ts'
import { taskOf } from './task.ts'

/**
 * One patient of a replay under both rule sets: run anew, from what was known when the replay was started.
 * @throws Refusal not-found
 */
export async function readReplayPatient(
  staff: StaffMember,
  id: string,
  patientId: string,
  now: Date = clock(),
): Promise<ReplayPatient> {
  const { clinicId } = staff
  const { kept, sets, zone, history, person } = await snapshot(async (tx) => {
    const replay = await replayById(tx, clinicId, id)
    const cutOff = replay?.replay.at ?? stored(now)
    const [one = null] = await historiesOf(tx, clinicId, [patientId], cutOff)
    return {
      kept: replay,
      sets: (await ruleSetsOf(tx, clinicId)).rows,
      zone: (await clinicById(tx, clinicId))?.timeZone ?? 'UTC',
      history: one,
      person: (await namesOf(tx, clinicId, [patientId])).get(patientId),
    }
  })
  if (!kept) throw new Refusal('not-found', 'This clinic has no such replay.')
  if (!history || !person) throw new Refusal('not-found', 'There is no such patient.')
  const { rules: draft, from, until, laterFrom, at: cutOff } = kept.replay
  const inForce = inForceOf(sets, Date.parse(cutOff))
  const task = taskOf({ clinicId, zone, draft, inForce, from, until, laterFrom, cutOff })
  const lives = replayPatient(history, inForce, draft, task)
  const pairs = paired(lives.inForce, lives.draft)
  const isIn = (instant: string) => Date.parse(instant) >= task.from && Date.parse(instant) <= task.until
  const flags = pairs.flatMap((pair) => {
    const [before, after] = [pair.inForce, pair.draft].map((life) =>
      life && stoodIn(life, task) ? shownLife(life) : null,
    )
    return before || after ? [{ inForce: before ?? null, draft: after ?? null }] : []
  })
  await write((tx) =>
    recordAccess(tx, {
      ...{
        clinicId,
        at: stored(now),
        staffId: staff.id,
        actor: staff.name,
        action: 'read-replay',
        patientId,
      },
      what: `looked at both courses of the replay ${id}`,
    }),
  )
  const { name, birthDate, recordNumber } = person
  return {
    ...{ patientId, name, birthDate, recordNumber },
    timeZone: history.details.at(-1)?.body.timeZone ?? zone,
    drains: history.drains.map((drain) => ({ id: drain.id, label: drain.label })),
    ...{ from: stored(new Date(task.from)), until: stored(new Date(task.until)), flags },
    calls: history.calls
      .filter((call) => isIn(call.at) && call.corrects === null && call.undoneAt === null)
      .map(({ at, outcome }) => ({ at, reached: outcome === 'reached' })),
    reports: history.reports.map(({ receivedAt }) => receivedAt).filter(isIn),
  }
}

/** Whether a flag stood at some time in the period. */
const stoodIn = (life: Life, { from, until }: { from: number; until: number }): boolean =>
  life.openedMs <= until && life.spans.some((span) => span.to === null || span.to >= from)

const shownLife = (life: Life): ReplayedLife => ({
  ...shownFlag(life),
  spans: life.spans.map(({ from, to }) => ({
    from: new Date(from).toISOString(),
    to: to === null ? null : new Date(to).toISOString(),
  })),
})
