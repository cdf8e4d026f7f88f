import { recordAccess } from '../../access/record.ts'
import { now as clock } from '../../clock.ts'
import { addDays, daysBetween, localDate } from '../../domain/local-time.ts'
import { type Fault, faultsOf, Refusal } from '../../domain/problem.ts'
import { NewReplay } from '../../domain/replay.ts'
import type { RuleSet } from '../../domain/ruleset.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { parseRuleSet, RuleSetError } from '../../rules/thresholds.ts'
import { answerOnce } from '../../store/answered.ts'
import { clinicById } from '../../store/clinics.ts'
import { type Tx, write } from '../../store/index.ts'
import { firstReportAt } from '../../store/replay-history.ts'
import { addReplay } from '../../store/replays.ts'
import { newId, stored } from '../../store/rows.ts'
import { draftById } from '../../store/rule-drafts.ts'
import { ruleSetsOf } from '../../store/rule-sets.ts'
import { inForceBetween, inForceOf, saysTheSame } from './in-force.ts'
import { launch } from './launch.ts'
import { refuseWhileRunning } from './lost.ts'
import { type Run, taskOf } from './task.ts'

export type ReplayStarted = { replay: string }

/** The longest period, in days. */
const MOST_DAYS = 731

/**
 * Starts to run a rule set over the clinic's history, as far as it is known now. One at a time for a clinic.
 * @throws Refusal invalid-input (the rule set or the period; it says the same as the one in force), not-found (the
 * draft), conflict (one is running), key-reused
 */
export async function startReplay(
  staff: StaffMember,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<ReplayStarted> {
  const { clinicId } = staff
  const request = { clinicId, source: staff.id, key, body: { replay: body } }
  let run: Run | null = null
  const started = await write((tx) =>
    answerOnce(tx, request, stored(now), async () => {
      const id = newId()
      run = await prepare(tx, staff, id, body, now)
      return { replay: id }
    }),
  )
  if (run) launch(started.replay, run)
  return started
}

async function prepare(tx: Tx, staff: StaffMember, id: string, body: unknown, now: Date): Promise<Run> {
  const { clinicId } = staff
  const parsed = NewReplay.safeParse(body)
  if (!parsed.success) throw refused(faultsOf(parsed.error, body))
  const wanted = parsed.data
  const { from, until, laterFrom = null } = wanted
  const rules = await rulesOf(tx, clinicId, wanted)
  const zone = (await clinicById(tx, clinicId))?.timeZone ?? 'UTC'
  const faults = await periodFaults(tx, clinicId, wanted, zone, now)
  if (faults.length > 0) throw refused(faults)

  const { rows } = await ruleSetsOf(tx, clinicId)
  const cutOff = stored(now)
  const run: Run = {
    ...{ clinicId, zone, draft: rules, inForce: inForceOf(rows, now.getTime()) },
    ...{ from, until, laterFrom, cutOff },
  }
  const task = taskOf(run)
  const before = inForceBetween(run.inForce, task.from, task.until)
  if (before.every((one) => saysTheSame(one, rules)))
    throw refused([
      {
        field: wanted.draft ? 'draft' : 'rules',
        value: rules.version,
        message: `changes nothing: it holds every record against the same numbers as the rule set in force (${before.map(({ version }) => version).join(', ')}); accepted: a rule set with at least one other value`,
      },
    ])
  await refuseWhileRunning(tx, clinicId, now)
  const replay = { id, draft: wanted.draft ?? null, rules, from, until, laterFrom, at: cutOff }
  await addReplay(tx, clinicId, replay, staff.id)
  await recordAccess(tx, {
    clinicId,
    at: cutOff,
    staffId: staff.id,
    actor: staff.name,
    action: 'replay',
    patientId: null,
    what: `started the replay ${id} of rule set ${rules.version} over ${from} to ${until}`,
  })
  return run
}

async function rulesOf(tx: Tx, clinicId: string, { draft, rules }: NewReplay): Promise<RuleSet> {
  if (draft) {
    const found = await draftById(tx, clinicId, draft)
    if (!found) throw new Refusal('not-found', 'This clinic has no such draft of a rule set.')
    return readable(found.body)
  }
  if (rules) return readable(rules)
  throw refused([{ field: 'draft', message: 'is missing; accepted: the id of a draft, or rules' }])
}

function readable(rules: RuleSet): RuleSet {
  try {
    return parseRuleSet(rules)
  } catch (error) {
    if (!(error instanceof RuleSetError)) throw error
    throw refused(error.faults.map((message) => ({ field: 'rules', message })))
  }
}

/** The period lies between the first report and today, and is divided inside. */
async function periodFaults(
  tx: Tx,
  clinicId: string,
  { from, until, laterFrom }: NewReplay,
  zone: string,
  now: Date,
): Promise<Fault[]> {
  const firstAt = await firstReportAt(tx, clinicId)
  if (firstAt === null)
    return [{ field: 'from', value: from, message: 'there is no report yet, so there is nothing to replay' }]
  const first = localDate(firstAt, zone)
  const today = localDate(now.getTime(), zone)
  const faults: Fault[] = []
  if (from < first || from > today)
    faults.push({
      field: 'from',
      value: from,
      message: `accepted: a day from ${first}, when the first report came, to today, ${today}`,
    })
  if (until < from || until > today)
    faults.push({
      field: 'until',
      value: until,
      message: `accepted: a day from ${from} to today, ${today}; what is to come cannot be replayed`,
    })
  else if (daysBetween(from, until) >= MOST_DAYS)
    faults.push({ field: 'until', value: until, message: `accepted: at most ${MOST_DAYS} days` })
  if (laterFrom && (laterFrom <= from || laterFrom > until))
    faults.push({
      field: 'laterFrom',
      value: laterFrom,
      message: `accepted: a day from ${addDays(from, 1)} to ${until}, from which the later weeks count`,
    })
  return faults
}

const refused = (faults: Fault[]) =>
  new Refusal('invalid-input', 'The replay is not as it is accepted.', faults)
