import type { Problem } from '@/lib/domain/problem.ts'
import type { Submission } from '@/lib/domain/submission.ts'
import type { Say } from '../words/catalogue.ts'
import type { Check } from './checks.ts'

/** A fault that the clinic's computer found, at the screen and the question where it can be mended. */
export type ClinicFault = Check & { step: string }

/**
 * A problem document's faults (`readings[0].volumeMl`) at the questions that they came from. What belongs
 * to no question is shown on the last screen, so that no fault is lost.
 */
export function faultsAtFields(problem: Problem, sent: Submission, say: Say): ClinicFault[] {
  const faults = problem.faults ?? []
  if (faults.length === 0)
    return [{ step: 'check', field: 'report', message: fromClinic(say, problem.detail ?? problem.title) }]
  return faults.map((fault) => ({ ...placeOf(fault.field, sent), message: fromClinic(say, fault.message) }))
}

const fromClinic = (say: Say, message: string) => say('ask.fromClinic', { message })

const questions: Record<string, { step: string; fields: Record<string, string>; other: string }> = {
  readings: {
    step: 'output',
    fields: { volumeMl: 'volume', at: 'outputWhen', appearance: 'looks', total: 'emptyings' },
    other: 'output',
  },
  flushes: {
    step: 'flush',
    fields: { volumeMl: 'flushVolume', at: 'flushWhen', ease: 'flushEase' },
    other: 'flushed',
  },
  dressings: {
    step: 'dressing',
    fields: { at: 'dressingWhen', found: 'found', skin: 'skin' },
    other: 'dressingChanged',
  },
  'symptoms.drains': { step: 'tube', fields: { leak: 'leak', draining: 'draining' }, other: 'position' },
}

const ofPerson: Record<string, { step: string; field: string }> = {
  temperatureC: { step: 'body', field: 'temperature' },
  chills: { step: 'body', field: 'chills' },
  pain: { step: 'body', field: 'pain' },
  general: { step: 'feel', field: 'general' },
}

function placeOf(path: string, sent: Submission): { step: string; field: string } {
  const [, list = '', index = '', field = ''] = /^([a-z.]+)\[(\d+)\](?:\.(\w+))?/.exec(path) ?? []
  const question = questions[list]
  const parts =
    list === 'symptoms.drains' ? sent.symptoms?.drains : sent[list as 'readings' | 'flushes' | 'dressings']
  const drain = question ? parts?.[Number(index)]?.drain : undefined
  if (question && drain)
    return {
      step: `${question.step}:${drain}`,
      field: `${question.fields[field] ?? question.other}:${drain}`,
    }
  const [, own = ''] = /^symptoms\.(\w+)/.exec(path) ?? []
  return ofPerson[own] ?? { step: 'check', field: path === 'note' ? 'note' : 'report' }
}
