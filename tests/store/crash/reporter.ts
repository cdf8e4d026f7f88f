import { receiveReport } from '../../../lib/intake/index.ts'
import { CLINIC, wellReport } from '../clinic.ts'

/** A child process that reports without pause, several at a time, and prints each report's key once it is acknowledged. */
const [patientId = '', drain = '', from = '0'] = process.argv.slice(2)
let next = Number(from)

async function report(): Promise<void> {
  for (;;) {
    const n = next++
    const key = `key-${n}`
    const incoming = {
      clinicId: CLINIC,
      patientId,
      door: 'system' as const,
      source: 'crash',
      by: null,
      key,
      body: wellReport(drain, n),
    }
    const { receipt } = await receiveReport(incoming)
    process.stdout.write(`${key} ${receipt}\n`)
  }
}
for (let lane = 0; lane < 4; lane++) void report()
