import { log } from '../http/log.ts'
import { clinicsWithAccessRows, lastAccessRow } from '../store/access-records.ts'
import { read } from '../store/index.ts'

/**
 * Writes the newest row of each access record to the log, once a start. Kept elsewhere, as a log is, it shows
 * later that a record was cut or written anew: `npm run admin -- verify --head SEQ:HASH`.
 */
export async function noteHeads(): Promise<void> {
  for (const clinicId of await read(clinicsWithAccessRows)) {
    const last = await read((tx) => lastAccessRow(tx, clinicId))
    if (last) log.info({ clinicId, head: `${last.seq}:${last.hash}` }, 'access record')
  }
}
