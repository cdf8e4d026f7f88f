import type { WorklistRow } from '@/lib/domain/worklist.ts'

type Row = Pick<WorklistRow, 'patientId' | 'name' | 'hold' | 'flags' | 'lastHeardAt'>

const evidenceOf = ({ flags, lastHeardAt }: Row) =>
  [lastHeardAt, ...flags.map(({ id, urgency, state }) => `${id} ${urgency} ${state}`)].join('|')

/** Who of one's own rows has brought something new between two readings of the list: whoever is about to call is told. */
export function newsOf(before: readonly Row[], after: readonly Row[], selfId: string): string[] {
  return after
    .filter((row) => {
      const earlier = before.find(({ patientId }) => patientId === row.patientId)
      const isOwn = row.hold?.staffId === selfId && earlier?.hold?.staffId === selfId
      return isOwn && earlier !== undefined && evidenceOf(earlier) !== evidenceOf(row)
    })
    .map(({ name }) => name)
}
