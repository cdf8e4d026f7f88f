import type { CheckInView } from '@/lib/domain/check-in.ts'
import type { Receipt } from '@/lib/domain/submission.ts'
import type { Draft } from '../answers/draft.ts'
import type { ClinicFault } from '../answers/faults.ts'
import type { Sent, Waiting } from '../keep/keep.ts'

/** Where a visit to the page stands; one at a time. */
export type Phase =
  | { name: 'opening' }
  /** The link is unknown, over or taken back: all read alike. */
  | { name: 'closed' }
  | { name: 'unreachable'; waits: number }
  /** A draft of some hours ago: the person says whether it still counts. */
  | { name: 'resume'; view: CheckInView; draft: Draft }
  | { name: 'form'; view: CheckInView; draft: Draft; faults: ClinicFault[] }
  | { name: 'waiting'; view: CheckInView; report: Waiting; why: 'sending' | 'unreachable' | 'link-ended' }
  | { name: 'receipt'; view: CheckInView; receipt: Receipt }
  | { name: 'sent-elsewhere'; view: CheckInView; sent: Sent }
