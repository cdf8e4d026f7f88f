import { WITHHELD } from '../../domain/registry.ts'
import type { Tx } from '../../store/index.ts'
import {
  type RegistryPatient,
  registryCounts,
  registryCrossed,
  registryEventCells,
} from '../../store/registry-rows.ts'
import { grouped } from '../../store/rows.ts'
import { ageGroup, nameable, tallyBy } from './mask.ts'

export type FlagCell = { kind: string | null; code: string; patients: number; flags: number }

/** What may be named: a kind, a finding, an event, an age group, and a kind beside a finding or beside an event. */
export type Mask = {
  at: string
  kinds: ReadonlySet<string>
  codes: ReadonlySet<string>
  events: ReadonlySet<string>
  ages: ReadonlySet<string>
  besideCode: ReadonlySet<string>
  besideEvent: ReadonlySet<string>
}

/** In the place of a kind: of the whole patient. */
export const WHOLE = ''
export const pairOf = (kind: string | null, of: string) => `${kind ?? WHOLE} ${of}`
export const named = (set: ReadonlySet<string>, value: string) => (set.has(value) ? value : WITHHELD)

/** What may be named of a clinic’s patients. */
export async function maskOf(
  tx: Tx,
  clinicId: string,
  patients: readonly RegistryPatient[],
  at: string,
): Promise<{ mask: Mask; flagCells: FlagCell[] }> {
  const counts = await registryCounts(tx, clinicId)
  const { rows: flagCells } = await registryCrossed(tx, clinicId)
  const { rows: eventCells } = await registryEventCells(tx, clinicId)
  const kinds = new Set([...nameable(counts.kind), WHOLE])
  // Of each finding or event by itself: so no cell is what is left of a sum.
  const besides = (cells: readonly { kind: string | null; of: string; patients: number }[]) =>
    new Set(
      [...grouped(cells, ({ of }) => of)].flatMap(([of, own]) => {
        const known = own.filter(({ kind }) => kinds.has(kind ?? WHOLE))
        const hidden = own.filter(({ kind }) => !kinds.has(kind ?? WHOLE))
        const names = nameable(
          new Map(known.map((cell) => [cell.kind ?? WHOLE, cell.patients])),
          hidden.reduce((sum, { patients }) => sum + patients, 0),
        )
        return [...names].map((kind) => pairOf(kind, of))
      }),
    )
  return {
    flagCells,
    mask: {
      at,
      kinds,
      codes: nameable(counts.code),
      events: nameable(counts.event),
      ages: nameable(tallyBy(patients, ageGroup)),
      besideCode: besides(flagCells.map(({ code, ...cell }) => ({ ...cell, of: code }))),
      besideEvent: besides(eventCells.map(({ event, ...cell }) => ({ ...cell, of: event }))),
    },
  }
}

/** A kind beside a finding or an event: withheld where few patients have both. */
export const kindBeside = (pairs: ReadonlySet<string>, kind: string | null, of: string): string =>
  pairs.has(pairOf(kind, of)) ? (kind ?? WHOLE) : WITHHELD
