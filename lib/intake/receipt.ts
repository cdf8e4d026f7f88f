import { randomInt } from 'node:crypto'
import { takenReceipts } from '../store/imports.ts'
import type { Tx } from '../store/index.ts'
import { isReceiptCode } from '../store/reports.ts'

/** Letters and digits that are not taken for one another on the phone: no 0, O, 1, I, L, 5, S, U, V. */
const ALPHABET = '2346789ABCDEFGHJKMNPQRTWXYZ'

const group = () => Array.from({ length: 4 }, () => ALPHABET[randomInt(ALPHABET.length)]).join('')

/** A receipt number that can be read aloud, such as `K7QM-4TXR`, and that no other report has. */
export async function newReceiptCode(tx: Tx): Promise<string> {
  for (;;) {
    const code = `${group()}-${group()}`
    if (!(await isReceiptCode(tx, code))) return code
  }
}

/** As many such numbers at once. */
export async function newReceiptCodes(tx: Tx, count: number): Promise<string[]> {
  const codes = new Set<string>()
  while (codes.size < count) {
    const more = Array.from({ length: count - codes.size }, () => `${group()}-${group()}`)
    const taken = new Set(await takenReceipts(tx, more))
    for (const code of more) if (!taken.has(code)) codes.add(code)
  }
  return [...codes]
}
