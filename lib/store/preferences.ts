import type { Tx } from './client.ts'

/** What a person has chosen under a name, as JSON text; null where nothing. */
export async function preferenceOf(tx: Tx, staffId: string, name: string): Promise<string | null> {
  const found = await tx.preference.findUnique({ where: { staffId_name: { staffId, name } } })
  return found?.value ?? null
}

export async function savePreference(
  tx: Tx,
  staffId: string,
  name: string,
  value: string,
  recordedAt: string,
): Promise<void> {
  const data = { value, recordedAt }
  await tx.preference.upsert({
    where: { staffId_name: { staffId, name } },
    create: { staffId, name, ...data },
    update: data,
  })
}
