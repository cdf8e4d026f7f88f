import { z } from 'zod'
import { Instant, LocalDate } from '../domain/instant.ts'
import { ReplayState } from '../domain/replay.ts'
import { DraftStepKind } from '../domain/rule-draft.ts'
import { RuleSet } from '../domain/ruleset.ts'
import type { Tx } from './client.ts'
import { json, type Rows, rowOf, rowsOf, sql } from './rows.ts'

/** A draft as it stands now; how it came to be stands in its steps. */
export const StoredDraft = z.object({
  id: z.string(),
  clinicId: z.string(),
  version: z.string(),
  body: json(RuleSet),
  baseVersion: z.string(),
  reason: z.string(),
  recordedAt: Instant,
  recordedBy: z.string(),
})
export type StoredDraft = z.infer<typeof StoredDraft>

export const StoredDraftStep = z.object({
  id: z.string(),
  draftId: z.string(),
  recordedAt: Instant,
  recordedBy: z.string(),
  step: DraftStepKind,
  replayId: z.string().nullable(),
  why: z.string().nullable(),
})
export type StoredDraftStep = z.infer<typeof StoredDraftStep>

/** A clinic's drafts, the newest first. */
export const draftsOf = (tx: Tx, clinicId: string): Promise<Rows<StoredDraft>> =>
  rowsOf(
    tx,
    'draft of a rule set',
    StoredDraft,
    sql`SELECT * FROM "RuleDraft" WHERE "clinicId" = ${clinicId} ORDER BY "recordedAt" DESC, "version" DESC`,
  )

export const draftById = (tx: Tx, clinicId: string, id: string): Promise<StoredDraft | null> =>
  rowOf(
    tx,
    'draft of a rule set',
    StoredDraft,
    sql`SELECT * FROM "RuleDraft" WHERE "id" = ${id} AND "clinicId" = ${clinicId}`,
  )

/** The steps of all drafts of a clinic, or of one, in the order in which they were taken. */
export const draftStepsOf = (tx: Tx, clinicId: string, draftId?: string): Promise<Rows<StoredDraftStep>> =>
  rowsOf(
    tx,
    'step of a draft',
    StoredDraftStep,
    draftId === undefined
      ? sql`SELECT * FROM "RuleDraftStep" WHERE "clinicId" = ${clinicId} ORDER BY rowid`
      : sql`SELECT * FROM "RuleDraftStep" WHERE "clinicId" = ${clinicId} AND "draftId" = ${draftId} ORDER BY rowid`,
  )

export async function addDraft(tx: Tx, draft: StoredDraft): Promise<void> {
  await tx.ruleDraft.create({ data: { ...draft, body: JSON.stringify(draft.body) } })
}

/** Puts other values into a draft; the step that is added with it keeps them for good. */
export async function saveDraft(
  tx: Tx,
  id: string,
  { body, baseVersion, reason }: Pick<StoredDraft, 'body' | 'baseVersion' | 'reason'>,
): Promise<void> {
  await tx.ruleDraft.update({ where: { id }, data: { body: JSON.stringify(body), baseVersion, reason } })
}

export async function addDraftStep(
  tx: Tx,
  clinicId: string,
  step: StoredDraftStep,
  body: RuleSet | null = null,
): Promise<void> {
  await tx.ruleDraftStep.create({ data: { ...step, clinicId, body: body && JSON.stringify(body) } })
}

/** The physicians of a clinic who can sign in. */
export async function physiciansOf(tx: Tx, clinicId: string): Promise<{ id: string; name: string }[]> {
  const { rows } = await rowsOf(
    tx,
    'staff',
    z.object({ id: z.string(), name: z.string() }),
    sql`SELECT "id", "name" FROM "Staff" WHERE "clinicId" = ${clinicId} AND "role" = 'physician' AND "disabledAt" IS NULL
        ORDER BY "name", "id"`,
  )
  return rows
}

/** Of a replay what a draft shows; what the result says besides stays unread here. */
const DraftReplay = z.object({
  id: z.string(),
  body: json(RuleSet),
  state: ReplayState,
  from: LocalDate,
  until: LocalDate,
  recordedAt: Instant,
  result: json(
    z.object({ whole: z.object({ flags: z.object({ gained: z.number(), lost: z.number() }) }) }),
  ).nullable(),
})
export type DraftReplay = z.infer<typeof DraftReplay>

/** The replays of a draft, the newest first. */
export const draftReplaysOf = (tx: Tx, clinicId: string, draftId: string): Promise<Rows<DraftReplay>> =>
  rowsOf(
    tx,
    'replay',
    DraftReplay,
    sql`SELECT * FROM "Replay" WHERE "clinicId" = ${clinicId} AND "draftId" = ${draftId}
        ORDER BY "recordedAt" DESC, "id" LIMIT 10`,
  )
