import { readFileSync } from 'node:fs'
import { beforeEach, expect, it } from 'vitest'
import { importColumns } from '../../lib/domain/import-columns.ts'
import { IMPORT_MAX_BYTES, IMPORT_MAX_LINES } from '../../lib/domain/import-file.ts'
import { importReports } from '../../lib/intake/import-reports.ts'
import { enrol } from '../../lib/intake/index.ts'
import { at, enrolment, nurse, openClinics } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'

const page = readFileSync(new URL('../../docs/record-format.md', import.meta.url), 'utf8')
const section = page.split(/^## /m).find((part) => part.startsWith('A file of reports')) ?? ''

databasePerTest()
beforeEach(openClinics)

it('the columns of a file of reports are documented as they are', () => {
  const rows = section.split('\n').filter((line) => line.startsWith('| `'))
  expect(rows).toEqual(
    importColumns.map(
      ({ name, isNeeded, about, accepted }) =>
        `| \`${name}\` | ${isNeeded ? 'yes' : ''} | ${about} | ${accepted} |`,
    ),
  )
})

it('so are the limits of a file', () => {
  expect(section).toContain(`At most ${IMPORT_MAX_LINES.toLocaleString('en')} lines`)
  expect(section).toContain(`${IMPORT_MAX_BYTES / 1024 / 1024} MiB a file`)
})

it('the example of a file is taken', async () => {
  const [, text = ''] = /```csv\n(.*?)```/s.exec(section) ?? []
  await enrol(nurse, enrolment({ recordNumber: 'LF-040137' }), 'e', at(0))
  const file = { name: 'x', bytes: new TextEncoder().encode(text), dryRun: false }
  expect(await importReports(nurse, file, undefined, at(48))).toMatchObject({
    faults: [],
    reports: 3,
    patients: 1,
  })
})
