import { bleeding } from './bleeding.ts'
import { blockedAndInfected } from './blocked-and-infected.ts'
import { capFailing } from './cap-failing.ts'
import { drainMoved } from './drain-moved.ts'
import { drainOut } from './drain-out.ts'
import { dressingOverdue } from './dressing-overdue.ts'
import { emergencySymptoms } from './emergency-symptoms.ts'
import { exchangeDue } from './exchange-due.ts'
import { flushBlocked } from './flush-blocked.ts'
import { flushMissed } from './flush-missed.ts'
import { flushRetained } from './flush-retained.ts'
import { feverOrChills, siteInfection } from './infection-signs.ts'
import { leak } from './leak.ts'
import { logMissed } from './log-missed.ts'
import { outputDecline } from './output-decline.ts'
import { outputStopped } from './output-stopped.ts'
import { outputSurge } from './output-surge.ts'
import { readingSuspect } from './reading-suspect.ts'
import { removalCheck } from './removal-check.ts'
import type { Rule } from './rule.ts'
import { severePain } from './severe-pain.ts'
import { skinBroken } from './skin-broken.ts'
import { unwell } from './unwell.ts'

/** Every rule. `log-missed` stands last: it is judged beside what the others found. */
export const rules: readonly Rule[] = [
  emergencySymptoms,
  blockedAndInfected,
  drainOut,
  drainMoved,
  outputStopped,
  outputDecline,
  outputSurge,
  bleeding,
  feverOrChills,
  siteInfection,
  leak,
  severePain,
  capFailing,
  unwell,
  flushBlocked,
  flushRetained,
  skinBroken,
  dressingOverdue,
  removalCheck,
  readingSuspect,
  flushMissed,
  exchangeDue,
  logMissed,
]
