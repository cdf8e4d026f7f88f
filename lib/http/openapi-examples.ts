import type { Problem, ProblemKind } from '../domain/problem.ts'
import type { Receipt } from '../domain/submission.ts'
import { problemOf } from './problem.ts'

/** The drain that the examples name. Which ones a patient has is told by the refusal of any other. */
export const EXAMPLE_DRAIN = '7d1f3c52-0c0e-4a57-9d56-0a3b0c7e9f11'
/** The record number of the invented patient of the examples. */
export const EXAMPLE_PATIENT = 'LF-040137'

const PROBLEM_ID = 'b2b3a1de-6a8f-4f0b-9f0f-1c2d3e4f5a6b'

/** Reports as another system sends them; each is sent to the door by a test. */
export const reportExamples = {
  emptying: {
    summary: 'One emptying, the flush and how the person is',
    value: {
      patient: EXAMPLE_PATIENT,
      readings: [
        { drain: EXAMPLE_DRAIN, at: '2026-03-02T08:05:00-07:00', volumeMl: 350, appearance: 'straw' },
      ],
      flushes: [{ drain: EXAMPLE_DRAIN, at: '2026-03-02T08:10:00-07:00', volumeMl: 10, ease: 'easy' }],
      symptoms: {
        at: '2026-03-02T08:10:00-07:00',
        temperatureC: 36.9,
        chills: false,
        pain: 2,
        general: [],
        drains: [{ drain: EXAMPLE_DRAIN, position: 'in-place', leak: false, draining: true }],
      },
    },
  },
  unmeasured: {
    summary: 'Emptied, but it could not be measured',
    value: {
      patient: EXAMPLE_PATIENT,
      readings: [{ drain: EXAMPLE_DRAIN, at: '2026-03-02T20:00:00-07:00', volumeMl: null }],
      note: 'The bag leaked.',
    },
  },
  correction: {
    summary: 'A correction of the report that was sent under the key "emptying"',
    value: {
      patient: EXAMPLE_PATIENT,
      supersedesKey: 'emptying',
      readings: [
        { drain: EXAMPLE_DRAIN, at: '2026-03-02T08:05:00-07:00', volumeMl: 530, appearance: 'straw' },
      ],
    },
  },
} as const

export const receiptExample: Receipt = {
  receipt: 'K7QM-4TXR',
  report: '0f0b6c0e-5f7a-4a39-8f0e-2d3c4b5a6978',
  receivedAt: '2026-03-02T15:11:02.417Z',
  advice: [],
}

const example = (kind: ProblemKind, detail: string, faults: Problem['faults'] = []): Problem =>
  problemOf({ kind, detail, faults }, PROBLEM_ID)

/** What the door refuses, by the status of the answer. */
export const problemExamples = {
  400: {
    description: 'The report, or the key, is not as it is accepted. `faults` names each field.',
    value: example('invalid-input', 'The report is not as it is accepted.', [
      {
        field: 'readings[0].volumeMl',
        value: -3,
        message: 'accepted: a number from 0 to 100000 mL',
      },
    ]),
  },
  401: {
    description: 'No key of a sending system, or none that is in force.',
    value: example('not-signed-in', 'Send the key of your system: Authorization: Bearer KEY.'),
  },
  413: {
    description: 'The body is larger than 64 KiB.',
    value: example('too-large', 'The body has more than 64 KiB; accepted: at most that.'),
  },
  422: {
    description: 'The Idempotency-Key came with another body before.',
    value: example(
      'key-reused',
      'This Idempotency-Key came with another report before; send a new key with a new report.',
    ),
  },
  429: {
    description: 'Too many requests. `Retry-After` says after how many seconds to try again.',
    value: example('too-many', 'Too many tries. Wait 30 seconds, then try again.'),
  },
  503: {
    description: 'The store is busy: send the same again, with the same key.',
    value: example('unavailable', 'The store is busy with another program’s work; send it again.'),
  },
} as const
