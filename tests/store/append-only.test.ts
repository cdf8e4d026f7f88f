import { readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, it } from 'vitest'

const lib = fileURLToPath(new URL('../../lib', import.meta.url))

/** Tables to which rows are only ever added: what was said, ordered, done and seen stays as it was. */
const ADDED_TO = [
  'report',
  'reading',
  'flush',
  'dressingChange',
  'symptoms',
  'drainSymptoms',
  'carePlan',
  'staffEvent',
  'callback',
  'flagStep',
  'accessRecord',
  'answered',
]

it('nothing changes or deletes what is only ever added to', () => {
  const change = new RegExp(`\\.(${ADDED_TO.join('|')})\\s*\\.\\s*(update|upsert|delete)\\w*`)
  const raw = new RegExp(`(UPDATE|DELETE FROM)\\s+"(${ADDED_TO.join('|')})"`, 'i')
  const files = readdirSync(lib, { recursive: true, encoding: 'utf8' }).filter(
    (file) => file.endsWith('.ts') && !file.includes('generated'),
  )
  const faults = files.filter((file) => {
    const text = readFileSync(path.join(lib, file), 'utf8')
    return change.test(text) || raw.test(text)
  })
  expect(faults).toEqual([])
  expect('await tx.reading.updateMany({').toMatch(change)
  expect('DELETE FROM "Report" WHERE').toMatch(raw)
})
