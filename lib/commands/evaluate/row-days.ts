import { stands } from '../../assessment/flag-life.ts'
import { type Urgency, urgencyRank } from '../../domain/words.ts'
import type { SimulatedPatient } from '../../simulate/index.ts'
import type { KeptFlag } from '../../store/flags.ts'
import type { ClinicClock } from './nurse.ts'
import type { Tally } from './tally.ts'

const NEW_TUBE_MS = 7 * 24 * 3_600_000

/** Counts the local days on which a patient's row stands, each day once per part of the worklist. */
export class RowDays {
  private readonly counted = { clinical: -1, upkeep: -1 }

  constructor(
    private readonly tally: Tally,
    private readonly clock: ClinicClock,
  ) {}

  /** Nothing changes between two moments: what stands at the first stands until the second. */
  count(living: readonly KeptFlag[], patient: SimulatedPatient, from: number, to: number): void {
    const standing = living.filter(stands)
    if (standing.length === 0) return
    const isClinical = standing.some((flag) => flag.nature === 'clinical' || joins(flag, patient, from))
    const part = isClinical ? 'clinical' : 'upkeep'
    const first = Math.max(this.clock.localDay(from), this.counted[part] + 1)
    const last = this.clock.localDay(to - 1)
    if (last < first) return
    this.counted[part] = last
    const days = last - first + 1
    if (part === 'upkeep') this.tally.upkeepRowDays += days
    else {
      const most = mostUrgent(standing)
      this.tally.clinicalRowDays += days
      this.tally.rowDaysByUrgency[most] = (this.tally.rowDaysByUrgency[most] ?? 0) + days
    }
  }
}

const mostUrgent = (flags: readonly KeptFlag[]): Urgency =>
  flags.reduce<Urgency>((a, { urgency }) => (urgencyRank[a] >= urgencyRank[urgency] ? a : urgency), 'none')

/** Upkeep joins the clinical part in the first 7 days of a tube and for an only kidney. */
function joins(flag: KeptFlag, patient: SimulatedPatient, at: number): boolean {
  const drain = patient.enrolment.drains.find(({ id }) => id === flag.drain)
  if (!drain) return false
  const replaced = patient.staffEvents
    .filter((event) => event.drain === drain.id && event.type === 'replaced' && Date.parse(event.at) <= at)
    .map((event) => Date.parse(event.at))
  return drain.onlyKidney === true || at - Math.max(Date.parse(drain.placedAt), ...replaced) < NEW_TUBE_MS
}
