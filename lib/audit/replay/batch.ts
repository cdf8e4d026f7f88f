import { snapshot } from '../../store/index.ts'
import { historiesOf } from '../../store/replay-history.ts'
import { stored } from '../../store/rows.ts'
import { addOutcome, noSums, type Sums } from './collect.ts'
import { type Judged, type KnownEvent, outcomeOf, type Task } from './outcome.ts'

/** Patients that are taken up together, with what is known of them beside their histories. */
export type Batch = { ids: string[]; judged: [string, Judged[]][]; events: [string, KnownEvent[]][] }

/** Reads the histories of some patients and adds up what is told of them. Whoever cannot be replayed is counted as such. */
export async function workOn(task: Task, { ids, judged, events }: Batch): Promise<Sums> {
  const sums = noSums()
  const until = stored(new Date(task.until))
  const histories = await snapshot((tx) => historiesOf(tx, task.clinicId, ids, until))
  const verdicts = new Map(judged)
  const outside = new Map(events)
  for (const history of histories)
    try {
      const { patientId } = history
      const own = outcomeOf(history, verdicts.get(patientId) ?? [], outside.get(patientId) ?? [], task)
      addOutcome(sums, own)
    } catch {
      sums.unreadable++
    }
  return sums
}
