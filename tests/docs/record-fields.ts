import { z } from 'zod'
import { PatientRecord } from '../../lib/domain/record.ts'

/** One field of the record as its schema has it. A list of objects or words has `[]` behind its name. */
export type Field = {
  path: string
  mayBe: string
  range: { low: number; high: number } | null
  words: readonly string[]
  /** Whether it holds further fields or is a list. */
  holds: boolean
}

type Schema = {
  type?: string | string[]
  properties?: Record<string, Schema>
  required?: string[]
  items?: Schema
  anyOf?: Schema[]
  enum?: string[]
  minimum?: number
  maximum?: number
}

function fieldsOf({ properties = {}, required = [] }: Schema, at: string): Field[] {
  return Object.entries(properties).flatMap(([name, schema]) => {
    const own = schema.anyOf?.find(({ type }) => type !== 'null') ?? schema
    const path = `${at}${name}${own.type === 'array' ? '[]' : ''}`
    const { minimum: low, maximum: high } = own
    const mayBe = [
      required.includes(name) ? '' : 'left out',
      [schema, ...(schema.anyOf ?? [])].some(({ type }) => [type].flat().includes('null')) ? 'null' : '',
    ]
    const field: Field = {
      path,
      mayBe: mayBe.filter(Boolean).join(', ') || '–',
      range: low !== undefined && high !== undefined ? { low, high } : null,
      words: own.enum ?? own.items?.enum ?? [],
      holds: own.type === 'array' || own.properties !== undefined,
    }
    return [field, ...fieldsOf(own.items ?? own, `${path}.`)]
  })
}

/** Every field of the record's schemas, in their order. */
export const recordFields = (): Field[] =>
  fieldsOf(z.toJSONSchema(PatientRecord, { io: 'input', unrepresentable: 'any' }) as Schema, '')

/** Every path that a JSON value has, written like the fields. */
export function pathsIn(value: unknown, at = ''): string[] {
  if (Array.isArray(value)) return value.flatMap((item) => pathsIn(item, at))
  if (value === null || typeof value !== 'object') return []
  return Object.entries(value).flatMap(([name, inner]) => {
    const path = `${at}${name}${Array.isArray(inner) ? '[]' : ''}`
    return [path, ...pathsIn(inner, `${path}.`)]
  })
}

/** A copy of a value in which the first thing at a path, which must be there, is another. */
export function withValue(value: unknown, path: string, other: unknown): unknown {
  const copy: unknown = structuredClone(value)
  put(copy, path.split('.'), other)
  return copy
}

/** Goes down the path, into that item of each list which has the rest of it. */
function put(part: unknown, [step = '', ...rest]: string[], other: unknown): boolean {
  if (part === null || typeof part !== 'object') return false
  const object = part as Record<string, unknown>
  const name = step.replace('[]', '')
  if (!(name in object)) return false
  const inner = object[name]
  if (rest.length === 0) {
    object[name] = other
    return true
  }
  return Array.isArray(inner) ? inner.some((item) => put(item, rest, other)) : put(inner, rest, other)
}
