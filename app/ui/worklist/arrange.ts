import { kindLabels, urgencyLabels } from '@/lib/domain/labels.ts'
import type { ListOnly, ListView } from '@/lib/domain/list-view.ts'
import { urgencyRank } from '@/lib/domain/words.ts'
import type { WorklistRow } from '@/lib/domain/worklist.ts'
import { finder } from './search-text.ts'

/** One line of the table: a row, or the heading above a group of them. */
export type Line =
  | { kind: 'row'; id: string; row: WorklistRow }
  | { kind: 'head'; id: string; text: string; count: number }
  | { kind: 'upkeep'; id: string; open: boolean }

/** The rows that a filter keeps from sight: how many, by what, and whoever of them cannot wait. */
export type Hidden = { count: number; by: string[]; atOnce: string[] }
export type Arranged = { lines: Line[]; rowIds: string[]; hidden: Hidden }

export const onlyLabels: Record<ListOnly, string> = {
  all: 'All',
  mine: 'With me',
  free: 'Free',
  upkeep: 'Upkeep only',
}

type Ask = { view: ListView; wanted: string; selfId: string; upkeepOpen: boolean }

/**
 * The lines of the table: the clinical rows as asked for, below them upkeep, closed until it is opened, filtered
 * to or found in. What a filter hides is counted and named, never silently gone.
 */
export function arrange(rows: readonly WorklistRow[], ask: Ask): Arranged {
  const { view, wanted, selfId, upkeepOpen } = ask
  const isFound = finder(wanted)
  const isOf: Record<ListOnly, (row: WorklistRow) => boolean> = {
    all: () => true,
    mine: ({ hold }) => hold?.staffId === selfId,
    free: ({ hold }) => hold === null,
    upkeep: ({ part }) => part === 'upkeep',
  }
  const isUrgent = ({ urgency }: WorklistRow) =>
    view.urgencies.length === 0 || view.urgencies.includes(urgency)
  const kept = rows.filter((row) => isUrgent(row) && isOf[view.only](row) && isFound(row))
  const shown = sorted(kept, view)
  const clinical = shown.filter(({ part }) => part === 'clinical')
  const hospital = shown.filter(({ part }) => part === 'in-hospital')
  const upkeep = shown.filter(({ part }) => part === 'upkeep')
  const open =
    upkeepOpen ||
    view.only === 'upkeep' ||
    (upkeep.length > 0 && (wanted.trim() !== '' || view.only === 'mine'))
  const lines: Line[] = grouped(clinical, view, selfId)
  if (hospital.length > 0)
    lines.push(
      { kind: 'head', id: 'in-hospital', text: 'In hospital: deadlines rest', count: hospital.length },
      ...hospital.map(lineOf),
    )
  if (rows.some(({ part }) => part === 'upkeep')) lines.push({ kind: 'upkeep', id: 'upkeep', open })
  if (open) lines.push(...upkeep.map(lineOf))
  return {
    lines,
    rowIds: lines.flatMap((line) => (line.kind === 'row' ? [line.id] : [])),
    hidden: hiddenOf(rows, kept, view, wanted),
  }
}

const lineOf = (row: WorklistRow): Line => ({ kind: 'row', id: row.patientId, row })

function hiddenOf(
  rows: readonly WorklistRow[],
  kept: readonly WorklistRow[],
  { urgencies, only }: ListView,
  wanted: string,
): Hidden {
  const by = [
    ...(urgencies.length > 0 ? [`‘${urgencies.map((urgency) => urgencyLabels[urgency]).join(', ')}’`] : []),
    ...(only === 'all' ? [] : [`‘${onlyLabels[only]}’`]),
    ...(wanted.trim() === '' ? [] : ['Find']),
  ]
  const there = new Set(kept)
  const gone = by.length === 0 ? [] : rows.filter((row) => !there.has(row))
  const atOnce = gone.filter(({ urgency }) => urgency === 'at-once').map(({ name }) => name)
  return { count: gone.length, by, atOnce }
}

const collator = new Intl.Collator('en', { sensitivity: 'base' })

/** As it came, or by one thing; what is alike in it stays as it came. */
function sorted(rows: readonly WorklistRow[], { sort }: ListView): readonly WorklistRow[] {
  if (sort === 'name') return rows.toSorted((a, b) => collator.compare(a.name, b.name))
  if (sort === 'kind') return by(rows, (row) => kindLabels[kindOf(row)])
  // Whoever was not heard for longest stands first, before them whoever was never heard.
  if (sort === 'heard')
    return by(rows, ({ lastHeardAt }) => (lastHeardAt === null ? 0 : Date.parse(lastHeardAt)))
  return rows
}

function by<K extends string | number>(
  rows: readonly WorklistRow[],
  key: (row: WorklistRow) => K,
): WorklistRow[] {
  return rows
    .map((row) => ({ row, key: key(row) }))
    .toSorted((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0))
    .map(({ row }) => row)
}

/** The kind of the drain that the most pressing flag is about; else of the first. */
function kindOf({ drains, flags }: WorklistRow) {
  const about = flags.find(({ drain }) => drain !== null)?.drain
  return (drains.find(({ id }) => id === about) ?? drains[0])?.kind ?? 'nephrostomy'
}

/** Rows under the heading of their group, the groups in an order of their own. */
function grouped(rows: readonly WorklistRow[], { group }: ListView, selfId: string): Line[] {
  if (group === 'none') return rows.map(lineOf)
  const groups = new Map<string, { order: string; text: string; rows: WorklistRow[] }>()
  for (const row of rows) {
    const { order, text } = groupOf(row, group, selfId)
    const one = groups.get(text)
    if (one) one.rows.push(row)
    else groups.set(text, { order, text, rows: [row] })
  }
  return [...groups.values()]
    .toSorted((a, b) => (a.order < b.order ? -1 : a.order > b.order ? 1 : 0))
    .flatMap(({ text, rows: of }) => [
      { kind: 'head', id: `group ${text}`, text, count: of.length } satisfies Line,
      ...of.map(lineOf),
    ])
}

function groupOf(row: WorklistRow, group: Exclude<ListView['group'], 'none'>, selfId: string) {
  if (group === 'urgency')
    return { order: String(9 - urgencyRank[row.urgency]), text: urgencyLabels[row.urgency] }
  if (group === 'kind') {
    const text = row.drains.length === 0 ? 'No drain' : kindLabels[kindOf(row)]
    return { order: text, text }
  }
  if (row.hold === null) return { order: '1', text: 'Free' }
  return row.hold.staffId === selfId
    ? { order: '0', text: 'With you' }
    : { order: `2${row.hold.name}`, text: `With ${row.hold.name}` }
}
