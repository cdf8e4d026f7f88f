import type { FindingCode } from './words.ts'

/** Findings whose sentence `blocked-and-infected` contains already. */
const within: ReadonlySet<FindingCode> = new Set(['infection-signs', 'output-stopped', 'output-decline'])

/** What needs a sentence of its own, where one finding tells of others too: each thing is said once. */
export const notSaidAlready = <T extends { code: FindingCode }>(standing: readonly T[]): T[] =>
  standing.some(({ code }) => code === 'blocked-and-infected')
    ? standing.filter(({ code }) => !within.has(code))
    : [...standing]
