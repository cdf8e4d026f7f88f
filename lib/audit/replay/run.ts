import { availableParallelism } from 'node:os'
import { Worker } from 'node:worker_threads'
import { stopwatch } from '../../clock.ts'
import { addDays } from '../../domain/local-time.ts'
import type { ReplayResult } from '../../domain/replay.ts'
import { standingOf } from '../../domain/review-page.ts'
import { daysBetween } from '../../rules/series/days.ts'
import { eventsIn } from '../../store/audit-facts.ts'
import { snapshot, type Tx } from '../../store/index.ts'
import { callersOn } from '../../store/replay-callers.ts'
import { namesOf, patientsBetween } from '../../store/replay-history.ts'
import { itemsFrom } from '../../store/review-items.ts'
import { reviewsFrom } from '../../store/reviews.ts'
import { grouped, stored } from '../../store/rows.ts'
import { type Batch, workOn } from './batch.ts'
import { foremost, merge, noSums, type PartOf, resultOf, type Sums } from './collect.ts'
import { inForceBetween } from './in-force.ts'
import type { Judged, Task } from './outcome.ts'
import { type Run, taskOf } from './task.ts'

const BATCH = 20
/** Batches that a worker has, so that it need not wait for the next one while this thread is at a batch of its own. */
const GIVEN = 2
/** What a worker’s memory may grow to, in MB. Little of it is old; a larger young part has less to clear away. */
const LIMITS = { maxOldGenerationSizeMb: 128, maxYoungGenerationSizeMb: 48 }

/**
 * Runs a rule set over a clinic's history, on all cores, a few patients at a time.
 * @param tell how many patients are done, of how many
 */
export async function runReplay(
  run: Run,
  tell: (done: number, total: number) => void,
  threads = availableParallelism(),
): Promise<ReplayResult> {
  const elapsed = stopwatch()
  const task = taskOf(run)
  const { ids, judged, events, parts } = await snapshot((tx) => beside(tx, run, task))
  const sums = noSums()
  let given = 0
  let done = 0
  tell(0, ids.length)
  const next = (): Batch | null => {
    const some = ids.slice(given, given + BATCH)
    given += some.length
    if (some.length === 0) return null
    const of = <T>(all: ReadonlyMap<string, T[]>) =>
      some.flatMap((id): [string, T[]][] => {
        const own = all.get(id)
        return own ? [[id, own]] : []
      })
    return { ids: some, judged: of(judged), events: of(events) }
  }
  await onThreads(
    task,
    Math.max(1, Math.min(threads, Math.ceil(ids.length / BATCH))),
    next,
    (some, count) => {
      merge(sums, some)
      done += count
      tell(done, ids.length)
    },
  )

  const first = foremost(sums.differ)
  const names = await snapshot((tx) =>
    namesOf(
      tx,
      run.clinicId,
      first.map(({ patientId }) => patientId),
    ),
  )
  return {
    ruleSet: run.draft.version,
    inForce: inForceBetween(run.inForce, task.from, task.until).map(({ version }) => version),
    ...resultOf(parts, sums),
    differ: first.flatMap(({ patientId, differs }) => {
      const person = names.get(patientId)
      if (!person) return []
      const { name, birthDate, recordNumber } = person
      return [{ patientId, name, birthDate, recordNumber, ...differs }]
    }),
    cutOff: run.cutOff,
    seconds: Math.round(elapsed() / 100) / 10,
  }
}

/** What is known beside the histories: who is in it, verdicts, events outside, and how many worked on the list. */
async function beside(tx: Tx, { clinicId, zone, from, until, laterFrom, cutOff }: Run, task: Task) {
  const span = {
    clinicId,
    from: stored(new Date(task.from)),
    until: stored(new Date(task.until)),
    now: cutOff,
  }
  const ids = await patientsBetween(tx, clinicId, span.from, span.until)
  const found = (await eventsIn(tx, span)).rows
  const days = daysBetween(zone, task.from, task.until)
  const callers = await callersOn(
    tx,
    clinicId,
    days.map((day) => ({
      from: stored(new Date(day.start)),
      until: stored(new Date(Math.min(day.end, task.until + 1))),
    })),
  )
  const nurseDays = (start: number, end: number) =>
    days.reduce((sum, day, i) => sum + (day.start >= start && day.start < end ? (callers[i] ?? 0) : 0), 0)
  const { later, until: end } = task
  const parts: { whole: PartOf; earlier: PartOf | null; later: PartOf | null } = {
    whole: { from, until, nurseDays: nurseDays(task.from, end + 1) },
    earlier: null,
    later: null,
  }
  if (laterFrom !== null && later !== null) {
    parts.earlier = { from, until: addDays(laterFrom, -1), nurseDays: nurseDays(task.from, later) }
    parts.later = { from: laterFrom, until, nurseDays: nurseDays(later, end + 1) }
  }
  return {
    ids,
    judged: await judgedOf(tx, clinicId, addDays(from, -7), cutOff),
    events: grouped(found, ({ patientId }) => patientId),
    parts,
  }
}

/** The verdicts that hold on flags, by patient; what nobody can tell is none. */
async function judgedOf(
  tx: Tx,
  clinicId: string,
  week: string,
  cutOff: string,
): Promise<Map<string, Judged[]>> {
  const items = (await itemsFrom(tx, clinicId, week)).rows.filter(({ kind }) => kind === 'flag')
  const reviews = (await reviewsFrom(tx, clinicId, week)).rows.filter(({ at }) => at <= cutOff)
  const byItem = grouped(reviews, ({ itemId }) => itemId)
  const judged = items.flatMap(({ id, patientId, flagId, twice, probability }) => {
    const verdict = standingOf(twice, byItem.get(id) ?? []).counts?.verdict
    if (flagId === null || verdict === undefined || verdict === 'cannot-tell') return []
    return [{ patientId, flagId, isWarranted: verdict !== 'not-warranted', weight: 1 / probability }]
  })
  return grouped(judged, ({ patientId }) => patientId)
}

/**
 * Lets this thread and workers beside it take batches until there are none; what comes back is small. One that fails ends
 * all. Two threads are one worker and this one, which would have nothing to do but wait.
 */
async function onThreads(
  task: Task,
  threads: number,
  next: () => Batch | null,
  take: (sums: Sums, count: number) => void,
): Promise<void> {
  const workers = Array.from(
    { length: threads - 1 },
    () =>
      new Worker(new URL('./worker-entry.mjs', import.meta.url), {
        workerData: task,
        resourceLimits: LIMITS,
      }),
  )
  const here = async () => {
    for (let batch = next(); batch; batch = next()) {
      take(await workOn(task, batch), batch.ids.length)
      // What the workers have sent is taken in before the next batch begins.
      await new Promise((resolve) => setImmediate(resolve))
    }
  }
  try {
    await Promise.all([here(), ...workers.map((worker) => follow(worker, next, take))])
  } finally {
    await Promise.all(workers.map((worker) => worker.terminate()))
  }
}

function follow(
  worker: Worker,
  next: () => Batch | null,
  take: (sums: Sums, count: number) => void,
): Promise<void> {
  return new Promise((resolve, reject) => {
    worker.on('error', reject)
    worker.on('exit', () => reject(new Error('replay: a worker ended before its work was done')))
    let given = 0
    worker.on('message', ({ sums, count }: { sums: Sums | null; count: number }) => {
      if (sums) {
        given--
        take(sums, count)
      }
      while (given < GIVEN) {
        const batch = next()
        if (!batch) break
        worker.postMessage(batch)
        given++
      }
      if (given === 0) resolve()
    })
  })
}
