import { z } from 'zod'
import { Problem } from '../domain/problem.ts'
import { cautions, PROJECT } from '../domain/project.ts'
import { Receipt, Submission } from '../domain/submission.ts'
import { problemExamples, receiptExample, reportExamples } from './openapi-examples.ts'

/** What each part of a report is, for those who read the document alone. */
const about: Readonly<Record<string, string>> = {
  readings: 'Measured output, one emptying each. `volumeMl` null: emptied, but it could not be measured.',
  flushes: 'Flushes that were given.',
  dressings: 'Looks at the dressing, changed or not.',
  symptoms: 'How the person and each drain is. What is left out was not asked.',
  supersedes: 'The id of the report that this one corrects; both are kept.',
  supersedesKey: 'The same by the Idempotency-Key under which that report was sent.',
  note: 'The reporter’s own words. Kept and shown; no rule reads it.',
  reporter: 'Ignored at this door: the report is the sending system’s.',
}

type Schema = Record<string, unknown> & { properties?: Record<string, object>; required?: string[] }
const schemaOf = (shape: z.ZodType): Schema => {
  const { $schema: _dialect, ...schema } = z.toJSONSchema(shape, { io: 'input' })
  return schema as Schema
}

function reportSchema(): Schema {
  const report = schemaOf(Submission)
  const properties = Object.entries(report.properties ?? {}).map(([name, schema]) => [
    name,
    about[name] ? { ...schema, description: about[name] } : schema,
  ])
  return {
    ...report,
    description:
      'One report of one patient. At least one reading, flush, dressing, symptom statement or note. Volumes in mL, temperatures in °C, instants with their offset. Unknown is null, never zero.',
    properties: {
      patient: {
        type: 'string',
        maxLength: 100,
        description: 'Whose report it is: our id of the patient, or the record number of the chart.',
      },
      ...Object.fromEntries(properties),
    },
    required: ['patient', ...(report.required ?? [])],
  }
}

const refusals = Object.fromEntries(
  Object.entries(problemExamples).map(([status, { description, value }]) => [
    status,
    {
      description,
      ...(status === '429'
        ? { headers: { 'Retry-After': { schema: { type: 'integer' }, description: 'Seconds.' } } }
        : {}),
      content: {
        'application/problem+json': {
          schema: { $ref: '#/components/schemas/Problem' },
          examples: { problem: { value } },
        },
      },
    },
  ]),
)

/** The door for other systems, described by OpenAPI 3.1 from the very schemas that it reads by. */
export const openApi = () => ({
  openapi: '3.1.1',
  info: {
    title: `${PROJECT}: reports from other systems`,
    version: '1',
    description: `${cautions} The record that rules read is described in docs/record-format.md, files of reports too.`,
  },
  servers: [{ url: '/' }],
  security: [{ system: [] }],
  paths: {
    '/api/reports': {
      post: {
        operationId: 'sendReport',
        summary: 'Send a report of one patient',
        description:
          'When this is answered with a receipt, the report is stored and assessed. The drains that a patient has are named by the refusal of any other.',
        parameters: [
          {
            name: 'Idempotency-Key',
            in: 'header',
            required: true,
            description:
              'One of your own for each report, a UUID for example, and the same again on each repeat: a repeat changes nothing and gets the same receipt.',
            schema: { type: 'string', pattern: '^[\\x21-\\x7e]{1,200}$' },
          },
        ],
        requestBody: {
          required: true,
          content: {
            'application/json': {
              schema: { $ref: '#/components/schemas/Report' },
              examples: reportExamples,
            },
          },
        },
        responses: {
          200: {
            description: 'Stored and assessed.',
            content: {
              'application/json': {
                schema: { $ref: '#/components/schemas/Receipt' },
                examples: { receipt: { value: receiptExample } },
              },
            },
          },
          ...refusals,
        },
      },
    },
  },
  components: {
    securitySchemes: {
      system: {
        type: 'http',
        scheme: 'bearer',
        description: 'The key of the sending system, shown once when `npm run admin` admits it.',
      },
    },
    schemas: {
      Report: reportSchema(),
      Receipt: schemaOf(Receipt),
      Problem: schemaOf(Problem),
    },
  },
})
