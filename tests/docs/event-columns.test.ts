import { readFileSync } from 'node:fs'
import { beforeEach, expect, it } from 'vitest'
import { eventColumns } from '../../lib/domain/outside-event-file.ts'
import { importOutsideEvents } from '../../lib/intake/import-outside-events.ts'
import { enrol } from '../../lib/intake/index.ts'
import { at, enrolment, nurse, openClinics } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

const page = readFileSync(new URL('../../docs/record-format.md', import.meta.url), 'utf8')
const section = page.split(/^## /m).find((part) => part.startsWith('A file of outside events')) ?? ''

databasePerTest()
beforeEach(openClinics)

it('the columns of a file of outside events are documented as they are', () => {
  const rows = section.split('\n').filter((line) => line.startsWith('| `'))
  expect(rows).toEqual(
    eventColumns.map(
      ({ name, isNeeded, about, accepted }) =>
        `| \`${name}\` | ${isNeeded ? 'yes' : ''} | ${about} | ${accepted} |`,
    ),
  )
})

it('the example of a file is taken', async () => {
  const [, text = ''] = /```csv\n(.*?)```/s.exec(section) ?? []
  await enrol(nurse, enrolment({ recordNumber: 'LF-040137' }), 'e', at(0))
  const file = { name: 'x', bytes: new TextEncoder().encode(text), dryRun: false }
  expect(await importOutsideEvents(nurse, file, at(200))).toMatchObject({
    faults: [],
    events: 2,
    patients: 1,
  })
})
