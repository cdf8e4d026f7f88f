import { bar, NARROW_DAY_PX, narrowBars, number, ROOMY_DAY_PX, unknown } from './bar-shapes.ts'
import type { DayRow } from './days.ts'
import { type Level, levelLines } from './levels.ts'
import type { Output } from './outputs.ts'
import { drawn, type Inks, type Series, type Where } from './series.ts'

export type Strip = {
  output: Output
  row: DayRow
  top: number
  bottom: number
  height: number
  pxPerDay: number
}

/** From this height on a strip has room for words beside its bars. */
const ROOMY_PX = 56
/** One output's days: the usual output, bars before it, the levels that the rules look at, and what is not known. */
export function outputSeries(
  { output, row, top, bottom, height, pxPerDay }: Strip,
  where: Where,
  inks: Inks,
): Series[] {
  const { usual, isProvisional, limits, label } = output
  const pxPerMl = height / (top - bottom)
  const isLow = height < ROOMY_PX
  const levels: Level[] = [
    ...limits
      .filter(({ mlPerDay }) => mlPerDay < top)
      .map(({ mlPerDay, says }) => ({
        ...{ y: mlPerDay, says, color: inks.urgencyInk, line: inks.urgencyEdge },
        isUsual: false,
      })),
    ...(usual === null
      ? []
      : [
          {
            ...{
              y: usual,
              says: `${isProvisional ? 'ward’s usual' : 'usual'} ${Math.round(usual)}`,
              color: inks.ink,
              line: inks.bandEdge,
            },
            isUsual: true,
          },
        ]),
  ]
  const { behind, before } = levelLines(levels, pxPerMl, height, inks)
  const none = { ...where, type: 'scatter', silent: true, data: [] }
  return [
    {
      ...none,
      id: `usual ${output.id}`,
      z: 1,
      ...(usual !== null && usual > 0
        ? {
            markArea: {
              ...{ silent: true, z: 0, itemStyle: { color: inks.band } },
              data: [[{ yAxis: usual * 0.9 }, { yAxis: usual * 1.1 }]],
            },
          }
        : {}),
      markLine: { ...behind, z: 1 },
    },
    pxPerDay < NARROW_DAY_PX
      ? drawn(where, [[0, 0]], (place, pen) => narrowBars(row, place, pen, inks), {
          id: `bars ${output.id}`,
          name: label,
          z: 2,
        })
      : drawn(
          where,
          row.bars.map(({ x, netMl }) => [x, netMl]),
          (place, pen) => bar(row, place, pen, inks),
          { id: `bars ${output.id}`, name: label, z: 2 },
        ),
    drawn(
      where,
      row.unknown.map(({ from, to }) => [from, 0, to]),
      (place, pen) => unknown(row, place, pen, isLow, inks),
      { id: `unknown ${output.id}`, z: 2 },
    ),
    { ...none, id: `limits ${output.id}`, markLine: { ...before, z: 3 } },
    ...(isLow || pxPerDay < ROOMY_DAY_PX
      ? []
      : [
          drawn(
            where,
            row.bars.map(({ x, netMl }) => [x, netMl]),
            (place, pen) => number(row, place, pen, inks),
            { id: `numbers ${output.id}`, z: 4 },
          ),
        ]),
  ]
}
