import type { CheckInView } from '@/lib/domain/check-in.ts'
import type { Stage } from './stage.ts'

/** Takes up what the clinic shows now, and keeps it for the next time. */
export async function takeUp(stage: Stage, view: CheckInView): Promise<void> {
  const { link, clock } = stage.world
  clock.setBy(view.asOf)
  await (await stage.keep()).keepView(view, link.hash(), stage.instant()).catch(() => undefined)
  if (view.patient.id === stage.person()) stage.set({ view, stale: false })
}

/** Reads it again after a report has changed it: its own entries, when it was sent last. */
export async function readAgain(stage: Stage): Promise<void> {
  const read = await stage.world.readView()
  if (read.kind === 'ok' && read.value.patient.id === stage.person()) await takeUp(stage, read.value)
}
