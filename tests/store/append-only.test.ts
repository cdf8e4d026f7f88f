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
  'patientVersion',
  'orderTemplate',
  'staffEvent',
  'callback',
  'patientNote',
  'callText',
  'flagStep',
  'escalationStep',
  'visitStep',
  'followUpStep',
  'handoverRow',
  'accessRecord',
  'answered',
  'primaryFigure',
  'weekMinutes',
  'reviewItem',
  'review',
  'inquiryAnswer',
  'ruleDraftStep',
]

const MARK_MOVED = /UPDATE "Report" SET ("moved(At|By|Why|ToId)" = \$\{\w+\}(, )?)+\s/

/** What was taken back is marked so, a call with what came with it; what was said, done and ordered stays as it was. */
const MARK_UNDONE =
  /\.(callback|staffEvent|carePlan|patientNote)\.update(Many)?\(\{\s*where: [^;]*?data: \{ ((before|undoneAt|undoneBy|withdrawnAt|withdrawnBy)(: [^,{}]+)?(, )?)+ \},?\s*\}\)/g

it('nothing changes or deletes what is only ever added to', () => {
  const change = new RegExp(`\\.(${ADDED_TO.join('|')})\\s*\\.\\s*(update|upsert|delete)\\w*`)
  const raw = new RegExp(`(UPDATE|DELETE FROM)\\s+"(${ADDED_TO.join('|')})"`, 'i')
  const files = readdirSync(lib, { recursive: true, encoding: 'utf8' }).filter(
    (file) => file.endsWith('.ts') && !file.includes('generated'),
  )
  // A report that was moved to another patient is marked so, in one place; what it says stays as it was.
  const faults = files.filter((file) => {
    const text = readFileSync(path.join(lib, file), 'utf8').replace(MARK_MOVED, '').replace(MARK_UNDONE, '')
    return change.test(text) || raw.test(text)
  })
  expect(faults).toEqual([])
  expect('await tx.reading.updateMany({').toMatch(change)
  expect("tx.callback.update({ where: { id }, data: { note: '' } })".replace(MARK_UNDONE, '')).toMatch(change)
  expect('DELETE FROM "Report" WHERE').toMatch(raw)
})
