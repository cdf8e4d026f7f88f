import { recordAccess } from '../access/record.ts'
import { now as clock } from '../clock.ts'
import { type AdviceTextsPage, NewText, TextApproval } from '../domain/advice-text-page.ts'
import { adviceNames, adviceUrgency } from '../domain/advice-urgency.ts'
import { Language } from '../domain/languages.ts'
import { Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { standardAdvice } from '../domain/texts/advice.ts'
import {
  addText,
  approve,
  approvedTextsOf,
  newestVersion,
  type StoredText,
  textById,
  textsOf,
} from '../store/advice-texts.ts'
import { answerOnce } from '../store/answered.ts'
import { read, type Tx, write } from '../store/index.ts'
import { newId, stored } from '../store/rows.ts'
import { staffNamesOf } from '../store/staff-names.ts'
import { textsInForce } from './advice-texts-in-force.ts'
import { parse } from './parse.ts'

/** All texts that the clinic's patients read, in each language, with every version that there was. */
export async function readAdviceTexts({ clinicId }: StaffMember): Promise<AdviceTextsPage> {
  return read(async (tx) => {
    const { rows } = await textsOf(tx, clinicId)
    const inForce = await textsInForce(tx, clinicId)
    const names = await staffNamesOf(tx, clinicId)
    const nameOf = (id: string | null) => (id === null ? null : (names.get(id) ?? id))
    return {
      cases: adviceNames.map((name) => ({
        name,
        urgency: adviceUrgency[name],
        languages: Language.options.map((language) => ({
          language,
          inForce: inForce[language][name],
          standard: standardAdvice[language][name].text,
          versions: rows
            .filter((row) => row.name === name && row.language === language)
            .map((row) => ({
              id: row.id,
              version: row.version,
              text: row.text,
              writtenAt: row.recordedAt,
              writtenBy: nameOf(row.recordedBy) ?? row.recordedBy,
              approvedAt: row.approvedAt,
              approvedBy: nameOf(row.approvedBy),
              readBy: row.readBy,
            }))
            .toReversed(),
        })),
      })),
    }
  })
}

/**
 * Adds a version of a text. Patients do not read it before a physician has approved it.
 * @throws Refusal invalid-input, key-reused
 */
export function saveAdviceText(
  staff: StaffMember,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<{ id: string; version: number }> {
  const { clinicId } = staff
  const request = { clinicId, source: staff.id, key, body: { adviceText: body } }
  return write((tx) =>
    answerOnce(tx, request, stored(now), async () => {
      const wanted = parse('text', NewText, body)
      const text: StoredText = {
        ...wanted,
        id: newId(),
        clinicId,
        version: (await newestVersion(tx, { clinicId, ...wanted })) + 1,
        recordedAt: stored(now),
        recordedBy: staff.id,
        approvedAt: null,
        approvedBy: null,
        readBy: null,
      }
      await addText(tx, text)
      await note(tx, staff, 'write-text', `wrote ${named(text)}`, now)
      return { id: text.id, version: text.version }
    }),
  )
}

/**
 * Makes a version the one that patients read, from now on. A translation needs the name of the qualified person who
 * read it; what was read already can be approved once only.
 * @throws Refusal invalid-input, not-found, conflict, key-reused
 */
export function approveAdviceText(
  staff: StaffMember,
  body: unknown,
  key: string,
  now: Date = clock(),
): Promise<{ version: number }> {
  const { clinicId } = staff
  const request = { clinicId, source: staff.id, key, body: { approveText: body } }
  return write((tx) =>
    answerOnce(tx, request, stored(now), async () => {
      const { id, readBy = null } = parse('approval', TextApproval, body)
      const text = await textById(tx, id)
      if (text?.clinicId !== clinicId)
        throw new Refusal('not-found', 'There is no such version of a text in this clinic.')
      if (text.approvedAt !== null)
        throw new Refusal('conflict', 'This version was approved already. To change it, write a further one.')
      const inForce = (await approvedTextsOf(tx, clinicId)).rows.find(
        (one) => one.name === text.name && one.language === text.language,
      )
      if (inForce && inForce.version > text.version)
        throw new Refusal('conflict', 'A newer version is in force already. To go back, write a further one.')
      if (text.language !== 'en' && readBy === null)
        throw new Refusal('invalid-input', 'A translation is approved once a qualified person has read it.', [
          { field: 'readBy', message: 'is missing; accepted: the name of the qualified person who read it' },
        ])
      await approve(tx, id, { approvedAt: stored(now), approvedBy: staff.id, readBy })
      const reader = readBy === null ? '' : `, read by ${readBy}`
      await note(tx, staff, 'approve-text', `approved ${named(text)}${reader}`, now)
      return { version: text.version }
    }),
  )
}

const named = ({ name, language, version }: StoredText) =>
  `the text ${name} (${language}), version ${version}`

const note = (tx: Tx, staff: StaffMember, action: string, what: string, now: Date) =>
  recordAccess(tx, {
    clinicId: staff.clinicId,
    at: stored(now),
    staffId: staff.id,
    actor: staff.name,
    role: staff.role,
    action,
    patientId: null,
    what,
  })
