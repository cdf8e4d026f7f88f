import { Validator } from '@seriousme/openapi-schema-validator'
import { Ajv2020 } from 'ajv/dist/2020.js'
import addFormats from 'ajv-formats'
import { beforeEach, describe, expect, it } from 'vitest'
import { POST as sendReport } from '../../app/api/reports/route.ts'
import { GET as describeApi } from '../../app/api/route.ts'
import { EXAMPLE_DRAIN, EXAMPLE_PATIENT } from '../../lib/http/openapi-examples.ts'
import { admitSystem, enrol } from '../../lib/intake/index.ts'
import { read } from '../../lib/store/index.ts'
import { ask, HERE, member, usePlace } from '../access/place.ts'
import { enrolment } from '../store/clinic.ts'

usePlace()

type Content = Record<string, { examples: Record<string, { value: unknown }> }>
type Operation = { requestBody: { content: Content }; responses: Record<string, { content: Content }> }

const served = async () => (await describeApi(ask('/api', { method: 'GET' }))).json()
const operation = async (): Promise<Operation> => (await served()).paths['/api/reports'].post

/** Judges a value by one of the schemas that the document has. */
async function judge(name: 'Report' | 'Receipt' | 'Problem', value: unknown) {
  const ajv = new Ajv2020({ strict: false, allErrors: true })
  addFormats.default(ajv)
  const validate = ajv.compile((await served()).components.schemas[name])
  return validate(value) ? [] : validate.errors
}

let apiKey = ''
let drain = ''
beforeEach(async () => {
  const nurse = await member('nurse')
  await enrol(nurse, enrolment({ recordNumber: EXAMPLE_PATIENT }, { placedAt: '2026-02-20T08:00:00Z' }), 'e1')
  drain = (await read((tx) => tx.drain.findFirstOrThrow())).id
  apiKey = (await admitSystem(HERE, 'ward system', 'the test')).key
})

const send = (body: unknown, headers: Record<string, string>) =>
  sendReport(ask('/api/reports', { body, headers: { authorization: `Bearer ${apiKey}`, ...headers } }))
/** An example with the drain that the test's patient has. */
const own = (value: unknown): unknown => JSON.parse(JSON.stringify(value).replaceAll(EXAMPLE_DRAIN, drain))

describe('the description of the door for other systems', () => {
  it('is valid OpenAPI 3.1', async () => {
    const validator = new Validator()
    const { valid, errors } = await validator.validate(await served())
    expect([valid, errors, validator.version]).toEqual([true, undefined, '3.1'])
  })

  it('has examples that its own schemas take', async () => {
    const { requestBody, responses } = await operation()
    const found: unknown[] = []
    for (const { value } of Object.values(requestBody.content['application/json']?.examples ?? {}))
      found.push(await judge('Report', value))
    for (const { content } of Object.values(responses))
      for (const [type, { examples }] of Object.entries(content))
        for (const { value } of Object.values(examples))
          found.push(await judge(type === 'application/json' ? 'Receipt' : 'Problem', value))
    expect(found).toEqual(Array.from({ length: 10 }, () => []))
  })

  it('has reports that the door takes, and answers as it says', async () => {
    const { requestBody } = await operation()
    for (const [name, { value }] of Object.entries(requestBody.content['application/json']?.examples ?? {})) {
      const response = await send(own(value), { 'idempotency-key': name })
      const receipt = await response.json()
      expect([name, response.status, await judge('Receipt', receipt)]).toEqual([name, 200, []])
      const again = await send(own(value), { 'idempotency-key': name })
      expect(await again.json()).toEqual(receipt)
    }
    const reports = await read((tx) => tx.report.findMany({ orderBy: { receivedAt: 'asc' } }))
    expect(reports).toHaveLength(3)
    expect(reports.find(({ key }) => key === 'correction')?.supersedesId).toBe(
      reports.find(({ key }) => key === 'emptying')?.id,
    )
  })

  it('has the refusals that the door gives', async () => {
    const { responses } = await operation()
    const report = {
      patient: EXAMPLE_PATIENT,
      readings: [{ drain, at: '2026-03-02T15:05:00Z', volumeMl: 350 }],
    }
    const key = { 'idempotency-key': 'k1' }
    await send(report, key)
    const refused = [
      await send(
        { ...report, readings: [{ ...report.readings[0], volumeMl: -3 }] },
        { 'idempotency-key': 'k2' },
      ),
      await send({ ...report, patient: 'nobody' }, { 'idempotency-key': 'k3' }),
      await send(report, {}),
      await send(report, { ...key, authorization: `Bearer ${'x'.repeat(43)}` }),
      await send({ ...report, note: 'x'.repeat(70_000) }, { 'idempotency-key': 'k4' }),
      await send({ ...report, note: 'another' }, key),
    ]
    expect(refused.map(({ status }) => status)).toEqual([400, 400, 400, 401, 413, 422])
    for (const response of refused) {
      const problem = await response.json()
      const content = responses[String(response.status)]?.content ?? {}
      const type = response.headers.get('content-type') ?? ''
      expect(Object.keys(content)).toEqual([type])
      expect(await judge('Problem', problem)).toEqual([])
      const example = Object.values(content[type]?.examples ?? {})[0]?.value as { status: number }
      expect(example.status).toBe(response.status)
    }
    const fault = (await (
      await send(
        { patient: EXAMPLE_PATIENT, readings: [{ drain: 'x', at: 'y' }] },
        {
          'idempotency-key': 'k5',
        },
      )
    ).json()) as { faults: { field: string }[] }
    expect(fault.faults.map(({ field }) => field)).toEqual(['readings[0].at', 'readings[0].volumeMl'])
  })

  it('names every field of a report, and refuses any other', async () => {
    const { Report } = (await served()).components.schemas
    expect(Object.keys(Report.properties)).toEqual([
      'patient',
      'reporter',
      'readings',
      'flushes',
      'dressings',
      'symptoms',
      'supersedes',
      'supersedesKey',
      'note',
    ])
    expect(await judge('Report', { patient: EXAMPLE_PATIENT, weight: 80 })).not.toEqual([])
  })
})
