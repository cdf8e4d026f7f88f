import { afterEach, beforeEach } from 'vitest'
import { closeAuth } from '../../lib/access/auth.ts'
import { createStaff } from '../../lib/access/index.ts'
import type { Role, StaffMember } from '../../lib/domain/staff.ts'
import { forgetCounts } from '../../lib/http/limits.ts'
import { addClinic } from '../../lib/store/clinics.ts'
import { write } from '../../lib/store/index.ts'
import { databasePerTest } from '../store/database.ts'

export const ORIGIN = 'http://127.0.0.1:3000'
export const PASSWORD = 'winter drains keep flowing'
export const HERE = 'clinic-here'
export const ELSEWHERE = 'clinic-elsewhere'

/** A database with two invented clinics, and the sign-in library set up anew for each test. */
export function usePlace() {
  const database = databasePerTest()
  beforeEach(async () => {
    process.env.AUTH_SECRET = 'only-for-the-tests-0000000000000000'
    closeAuth()
    forgetCounts()
    await write(async (tx) => {
      for (const id of [HERE, ELSEWHERE])
        await addClinic(
          tx,
          {
            id,
            name: `${id} (invented)`,
            timeZone: 'America/Denver',
            phone: '+1 555 0100',
            afterHoursPhone: null,
            demo: true,
          },
          new Date('2026-03-02T08:00:00Z'),
        )
    })
  })
  afterEach(() => {
    closeAuth()
    delete process.env.AUTH_SECRET
  })
  return database
}

let count = 0

/** An invented member of staff with the password of all tests. */
export const member = (role: Role = 'nurse', clinicId = HERE): Promise<StaffMember> =>
  createStaff(
    {
      clinicId,
      role,
      name: `Invented Person ${++count}`,
      email: `person-${count}@larkfield.example`,
      password: PASSWORD,
    },
    'the test',
  )

type Ask = { method?: string; body?: unknown; cookie?: string; headers?: Record<string, string> }

/** A request as a page of ours would make it. */
export function ask(path: string, { method = 'POST', body, cookie, headers = {} }: Ask = {}): Request {
  return new Request(`${ORIGIN}${path}`, {
    method,
    headers: {
      host: new URL(ORIGIN).host,
      origin: ORIGIN,
      'sec-fetch-site': 'same-origin',
      'content-type': 'application/json',
      ...(cookie ? { cookie } : {}),
      ...headers,
    },
    ...(method === 'GET' || body === undefined
      ? {}
      : { body: typeof body === 'string' ? body : JSON.stringify(body) }),
  })
}

/** The cookie that an answer sets, as a browser would send it back. */
export const cookieOf = (response: Response): string =>
  response.headers
    .getSetCookie()
    .map((cookie) => cookie.split(';')[0])
    .join('; ')
