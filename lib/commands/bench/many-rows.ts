import { type Tx, write } from '../../store/index.ts'

type Column = { name: string }

/** What a copy has of its own; everything else is as in the patient that it copies. */
const own: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  Patient: {
    id: `s."id" || '-' || n.i`,
    recordNumber: `s."recordNumber" || '-' || n.i`,
    name: `substr('ABCDEFGHIJKLMNOPQRSTUVWXYZ', 1 + (n.i * 7) % 26, 1) || '. ' || s."name" || ' ' || n.i`,
    birthDate: `date('1935-01-01', '+' || ((n.i * 7919 + s.rowid * 104729) % 25000) || ' days')`,
  },
  // Nothing falls due: a copy has no reports from which it could be assessed again.
  PatientState: { patientId: `s."patientId" || '-' || n.i`, nextCheckAt: 'NULL', nextReminderAt: 'NULL' },
  Flag: { id: `s."id" || '-' || n.i`, patientId: `s."patientId" || '-' || n.i` },
}

/**
 * Fills the worklist of the only clinic up to so many rows, with copies of the demo scenario's rows under names
 * of their own: in SQL, since a panel that was reported through the door would take an hour. Of rows that wait
 * for a day or longer: with thousands that cannot wait, the calls to the person on call would be measured.
 */
export async function fillWorklist(rows: number): Promise<void> {
  await write(async (tx) => {
    const standing = await tx.$queryRawUnsafe<{ patientId: string }[]>(
      `SELECT DISTINCT f."patientId" FROM "Flag" f JOIN "Patient" p ON p."id" = f."patientId"
       WHERE f."state" IN ('open', 'owed') AND p."followUpEndedAt" IS NULL AND NOT EXISTS (
         SELECT 1 FROM "Flag" u WHERE u."patientId" = p."id" AND u."state" IN ('open', 'owed')
         AND u."urgency" IN ('at-once', 'within-1h')) ORDER BY f."patientId"`,
    )
    if (standing.length === 0) throw new Error('the demo scenario has no row to copy')
    const each = Math.ceil(Math.max(0, rows - standing.length) / standing.length)
    const ids = standing.map(({ patientId }) => `'${patientId}'`).join(', ')
    for (const table of ['Patient', 'PatientState', 'Flag']) await copyRows(tx, table, ids, each)
  })
}

async function copyRows(tx: Tx, table: string, ids: string, each: number): Promise<void> {
  const columns = await tx.$queryRawUnsafe<Column[]>(`SELECT "name" FROM pragma_table_info('${table}')`)
  const names = columns.map(({ name }) => name)
  const values = names.map((name) => own[table]?.[name] ?? `s."${name}"`)
  const key = table === 'Patient' ? 'id' : 'patientId'
  const only = table === 'Flag' ? `AND s."state" IN ('open', 'owed')` : ''
  await tx.$executeRawUnsafe(
    `WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < ${each})
     INSERT INTO "${table}" (${names.map((name) => `"${name}"`).join(', ')})
     SELECT ${values.join(', ')} FROM "${table}" s, n WHERE s."${key}" IN (${ids}) ${only}`,
  )
}
