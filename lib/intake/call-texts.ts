import { recordAccess } from '../access/record.ts'
import { now as clock } from '../clock.ts'
import { type CallTextsPage, NewCallText } from '../domain/call-text.ts'
import { standardCallTexts } from '../domain/call-text-standard.ts'
import { Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { FindingCode } from '../domain/words.ts'
import { tell } from '../notify/bus.ts'
import { answerOnce } from '../store/answered.ts'
import { addCallText, callTextsOf, newestCallText } from '../store/call-texts.ts'
import { snapshot, write } from '../store/index.ts'
import { stored } from '../store/rows.ts'
import { staffNamesOf } from '../store/staff-names.ts'
import { parse } from './parse.ts'

/** What a caller asks, advises and escalates for each finding, with every version and who wrote it. */
export async function readCallTexts({ clinicId }: StaffMember): Promise<CallTextsPage> {
  const { texts, names } = await snapshot(async (tx) => ({
    texts: await callTextsOf(tx, clinicId),
    names: await staffNamesOf(tx, clinicId),
  }))
  return {
    findings: FindingCode.options.map((code) => {
      const versions = texts.rows
        .filter((text) => text.code === code)
        .map(({ version, body, recordedAt, recordedBy }) => ({
          version,
          body,
          at: recordedAt,
          by: names.get(recordedBy) ?? recordedBy,
        }))
      const own = versions[0]?.body ?? null
      return { code, isStandard: own === null, body: own ?? standardCallTexts[code], versions }
    }),
  }
}

/**
 * Keeps a further version of a finding's texts, which is in force from now on; earlier ones stay. Whoever keeps it
 * answers for it in the clinic's name.
 * @throws Refusal invalid-input, conflict (somebody has kept a newer one meanwhile), key-reused
 */
export async function saveCallText(
  staff: StaffMember,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<{ version: number }> {
  const { clinicId } = staff
  const at = stored(now)
  const request = { clinicId, source: staff.id, key, body: { callText: body } }
  const saved = await write((tx) =>
    answerOnce(tx, request, at, async () => {
      const wanted = parse('text', NewCallText, body)
      const newest = await newestCallText(tx, clinicId, wanted.code)
      if (newest !== wanted.basedOn)
        throw new Refusal(
          'conflict',
          `Version ${newest} of these texts was kept meanwhile. Look at it, then write yours again.`,
        )
      const version = newest + 1
      await addCallText(tx, clinicId, { ...wanted, version }, { recordedAt: at, recordedBy: staff.id })
      const how = wanted.body === null ? ', back to the standard text' : ''
      await recordAccess(tx, {
        clinicId,
        at,
        staffId: staff.id,
        actor: staff.name,
        role: staff.role,
        action: 'edit-call-text',
        patientId: null,
        what: `texts of the call for ${wanted.code}, version ${version}${how}`,
      })
      return { version }
    }),
  )
  tell(clinicId, { patientId: '', kind: 'patient' })
  return saved
}
