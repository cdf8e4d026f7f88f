import type { z } from 'zod'
import { now as clock } from '../clock.ts'
import { ListHabit, standardHabit } from '../domain/list-view.ts'
import { Refusal } from '../domain/problem.ts'
import type { StaffMember } from '../domain/staff.ts'
import { snapshot, write } from '../store/index.ts'
import { preferenceOf, savePreference } from '../store/preferences.ts'
import { stored } from '../store/rows.ts'

/** What can be remembered for a person: by name its shape, and what stands where nothing was chosen. */
const kept = {
  worklist: { shape: ListHabit, otherwise: standardHabit },
} as const satisfies Record<string, { shape: z.ZodType; otherwise: unknown }>

function keptAs(name: string) {
  if (!Object.hasOwn(kept, name)) throw new Refusal('not-found', 'Nothing is remembered under this name.')
  return kept[name as keyof typeof kept]
}

/**
 * What a member of staff has chosen under a name. What can no longer be read counts as not chosen: a way to look
 * at a list must not keep anybody from the list.
 * @throws Refusal not-found
 */
export async function readPreference({ id }: StaffMember, name: string): Promise<ListHabit> {
  const { shape, otherwise } = keptAs(name)
  const text = await snapshot((tx) => preferenceOf(tx, id, name))
  if (text === null) return otherwise
  const read = shape.safeParse(jsonOf(text))
  return read.success ? read.data : otherwise
}

/**
 * Remembers a choice for a member of staff, in the place of the one before.
 * @throws Refusal not-found; ZodError where it is none
 */
export async function keepPreference(
  { id }: StaffMember,
  name: string,
  body: unknown,
  now: Date = clock(),
): Promise<ListHabit> {
  const value = keptAs(name).shape.parse(body)
  await write((tx) => savePreference(tx, id, name, JSON.stringify(value), stored(now)))
  return value
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}
