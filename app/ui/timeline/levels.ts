import type { Inks, Series } from './series.ts'

/** Longest line of words that has room, in letters. */
const WIDEST = 16

/** @example inTwo('call below 205') // 'call below\n205', but 'removal check\nunder 10' */
const inTwo = (says: string) =>
  says.replace(says.lastIndexOf(' ') <= WIDEST - 2 ? / (?=[^ ]+$)/ : / (?=[^ ]+ [^ ]+$)/, '\n')

/** A level drawn across a strip, with its words beside the chart. The first matter most. */
export type Level = { y: number; says: string; color: string; line: string; isUsual: boolean }

/** Under this a strip has no words beside it, and up to the next one line of them, px. */
const LEAST_PX = 20
const ROOMY_PX = 56
/** Height of a line of words, px. */
const LINE = 13

/**
 * Levels as lines: what is usual behind the bars, the rules' limits, dashed, before them. Where the words of two
 * would run into each other, those of the less important are left out: table and pointer have them all.
 */
export function levelLines(
  levels: readonly Level[],
  pxPerMl: number,
  height: number,
  inks: Inks,
): { behind: Series; before: Series } {
  const taken: { at: number; lines: number }[] = []
  const lines = levels.map(({ y, says, color, line, isUsual }) => {
    const text = height < ROOMY_PX ? says : inTwo(says)
    const count = text.split('\n').length
    const at = y * pxPerMl
    const fits =
      height >= LEAST_PX &&
      text.split('\n').every((one) => one.length <= WIDEST) &&
      taken.every((one) => Math.abs(one.at - at) >= (LINE * (one.lines + count)) / 2)
    if (fits) taken.push({ at, lines: count })
    const data = {
      yAxis: y,
      name: says,
      lineStyle: { color: line, type: isUsual ? 'solid' : 'dashed', width: 1 },
      label: {
        show: fits,
        formatter: text,
        position: 'end',
        color,
        fontSize: 12,
        lineHeight: LINE,
        fontFamily: inks.face,
      },
    }
    return { data, isUsual }
  })
  const of = (usual: boolean): Series => ({
    ...{ silent: true, symbol: 'none', animation: false },
    data: lines.filter(({ isUsual }) => isUsual === usual).map(({ data }) => data),
  })
  return { behind: of(true), before: of(false) }
}
