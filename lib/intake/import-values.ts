import { type ImportColumnName, importColumns } from '../domain/import-columns.ts'
import type { LineFault } from '../domain/import-file.ts'
import { NOTE_MAX, UNCONFIRMED_MAX_ML, VOLUME_MAX_ML } from '../domain/limits.ts'
import { Appearance, DressingFound, Ease, General, Position, Skin } from '../domain/words.ts'
import type { Line } from './import-lines.ts'

/** What a line says, by kind of statement; undefined where it says nothing of it. Volumes in mL, null is 'unknown'. */
export type Values = {
  volumeMl: number | null | undefined
  total: boolean | undefined
  confirmed: boolean | undefined
  appearance: Appearance | undefined
  flushMl: number | null | undefined
  ease: Ease | undefined
  changed: boolean | undefined
  found: DressingFound | undefined
  skin: Skin | undefined
  temperatureC: number | undefined
  chills: boolean | undefined
  pain: number | undefined
  position: Position | undefined
  leak: boolean | undefined
  draining: boolean | undefined
  general: General[] | undefined
  note: string | undefined
}

const acceptedOf = new Map<ImportColumnName, string>(
  importColumns.map(({ name, accepted }) => [name, accepted]),
)

/** Reads the values of one line; each that is not as accepted is a fault. */
export function valuesOf({ line, values }: Line): { values: Values; faults: LineFault[] } {
  const faults: LineFault[] = []
  const fault = (column: ImportColumnName, why?: string) => {
    const accepted = `accepted: ${acceptedOf.get(column)}`
    faults.push({
      line,
      column,
      value: values[column]?.slice(0, 100) ?? null,
      message: why ? `${why}; ${accepted}` : accepted,
    })
    return undefined
  }
  const yesNo = (column: ImportColumnName): boolean | undefined => {
    const given = values[column]?.toLowerCase()
    if (given === undefined) return undefined
    if (given === 'yes' || given === 'true') return true
    return given === 'no' || given === 'false' ? false : fault(column)
  }
  const word = <T extends string>(column: ImportColumnName, list: readonly T[]): T | undefined => {
    const given = values[column]?.toLowerCase()
    return given === undefined ? undefined : (list.find((one) => one === given) ?? fault(column))
  }
  const number = (column: ImportColumnName, low: number, high: number): number | undefined => {
    const given = values[column]
    if (given === undefined) return undefined
    if (/^-?\d+(\.\d+)?$/.test(given)) {
      const value = Number(given)
      if (value >= low && value <= high) return value
      const isFahrenheit = column === 'temperature_c' && value >= 86 && value <= 113
      return fault(column, isFahrenheit ? 'looks like °F' : 'is out of range')
    }
    if (/^\d+,\d+$/.test(given)) return fault(column, 'has a comma; write a point')
    if (/^-?[\d.]+\s*[a-z°]/i.test(given)) return fault(column, 'has a unit; write the number alone')
    return fault(column)
  }
  const volume = (column: ImportColumnName): number | null | undefined =>
    values[column]?.toLowerCase() === 'unknown' ? null : number(column, 0, VOLUME_MAX_ML)
  const general = (): General[] | undefined => {
    const given = values.general?.toLowerCase()
    if (given === undefined) return undefined
    if (given === 'none') return []
    const list = given
      .split(';')
      .map((one) => one.trim())
      .filter(Boolean)
    const known = list.flatMap((one) => General.options.filter((option) => option === one))
    return known.length === list.length ? [...new Set(known)] : fault('general')
  }

  const read: Values = {
    volumeMl: volume('volume_ml'),
    total: yesNo('total'),
    confirmed: yesNo('confirmed'),
    appearance: word('appearance', Appearance.options),
    flushMl: volume('flush_ml'),
    ease: word('flush_ease', Ease.options),
    changed: yesNo('dressing_changed'),
    found: word('dressing_found', DressingFound.options),
    skin: word('skin', Skin.options),
    temperatureC: number('temperature_c', 30, 45),
    chills: yesNo('chills'),
    pain: number('pain', 0, 10),
    position: word('position', Position.options),
    leak: yesNo('leak'),
    draining: yesNo('draining'),
    general: general(),
    note: values.note && values.note.length > NOTE_MAX ? fault('note', 'is too long') : values.note,
  }
  if (typeof read.volumeMl === 'number' && read.volumeMl > UNCONFIRMED_MAX_ML && !read.confirmed)
    fault('volume_ml', `is over ${UNCONFIRMED_MAX_ML} mL; write yes in "confirmed" if it is meant`)
  for (const column of ['total', 'confirmed', 'appearance'] as const)
    if (values[column] !== undefined && values.volume_ml === undefined)
      fault(column, 'stands without a volume_ml, which may be unknown')
  return { values: read, faults }
}

const OF_A_DRAIN = [
  'volume_ml',
  'flush_ml',
  'flush_ease',
  'dressing_changed',
  'dressing_found',
  'skin',
  'position',
  'leak',
  'draining',
] as const satisfies readonly ImportColumnName[]
const OF_THE_PERSON = ['temperature_c', 'chills', 'pain', 'general', 'note'] as const

/** Whether a line speaks of a drain. */
export const speaksOfDrain = ({ values }: Line) => OF_A_DRAIN.some((column) => values[column] !== undefined)

/** Whether a line says anything at all. */
export const saysSomething = (line: Line) =>
  speaksOfDrain(line) || OF_THE_PERSON.some((column) => line.values[column] !== undefined)
