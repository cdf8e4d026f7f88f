import { beforeEach, describe, expect, it } from 'vitest'
import { POST as signIn } from '../../app/api/auth/[...all]/route.ts'
import { POST as importFile } from '../../app/api/imports/route.ts'
import { IMPORT_MAX_BYTES, ImportNews } from '../../lib/domain/import-file.ts'
import type { Role } from '../../lib/domain/staff.ts'
import { enrol } from '../../lib/intake/index.ts'
import { read } from '../../lib/store/index.ts'
import { ask, cookieOf, member, ORIGIN, PASSWORD, usePlace } from '../access/place.ts'
import { enrolment } from '../store/clinic.ts'

usePlace()

const signedIn = async (role: Role) => {
  const { email } = await member(role)
  return cookieOf(await signIn(ask('/api/auth/sign-in/email', { body: { email, password: PASSWORD } })))
}
const none = { params: Promise.resolve({}) } as never
const send = (cookie: string, body: BodyInit, query = '', type = 'text/csv') =>
  importFile(
    new Request(`${ORIGIN}/api/imports${query}`, {
      method: 'POST',
      body,
      headers: { cookie, origin: ORIGIN, host: new URL(ORIGIN).host, 'content-type': type },
    }),
    none,
  )
const newsOf = async (response: Response) =>
  (await response.text())
    .split('\n')
    .filter(Boolean)
    .map((line) => ImportNews.parse(JSON.parse(line)))

const file = 'record_number,drain,at,volume_ml\nLF-77,1,2026-03-02T08:05:00-07:00,350\n'
beforeEach(async () => {
  const body = enrolment({ recordNumber: 'LF-77' }, { placedAt: '2026-02-20T08:00:00Z' })
  await enrol(await member('nurse'), body, 'e')
})

describe('the door for files of reports', () => {
  it('tells how far it is, a line of JSON each, and how it ended', async () => {
    const nurse = await signedIn('nurse')
    const looked = await newsOf(await send(nurse, file, '?dry=1&name=log.csv'))
    expect(looked.at(-1)).toMatchObject({ news: 'outcome', outcome: { dryRun: true, reports: 1 } })
    expect(await read((tx) => tx.report.count())).toBe(0)

    const response = await send(nurse, file, '?name=log.csv')
    expect(response.headers.get('content-type')).toContain('ndjson')
    const news = await newsOf(response)
    expect(new Set(news.slice(0, -1).map(({ news }) => news))).toEqual(new Set(['progress']))
    expect(news.at(-1)).toMatchObject({ outcome: { dryRun: false, reports: 1, patients: 1, faults: [] } })
    expect(await read((tx) => tx.importedFile.findMany())).toMatchObject([{ name: 'log.csv', added: 1 }])
  })

  it('goes on when the browser has gone', async () => {
    const response = await send(await signedIn('nurse'), file)
    await response.body?.cancel()
    await expect.poll(() => read((tx) => tx.report.count()), { timeout: 10_000 }).toBe(1)
  })

  it('is shut for whoever may not, for another body and for too much of it', async () => {
    const nurse = await signedIn('nurse')
    expect((await send(await signedIn('administrator'), file)).status).toBe(403)
    expect((await send('', file)).status).toBe(401)
    expect((await send(nurse, '{}', '', 'application/json')).status).toBe(400)
    expect((await send(nurse, new Uint8Array(IMPORT_MAX_BYTES + 1))).status).toBe(413)
  })
})
