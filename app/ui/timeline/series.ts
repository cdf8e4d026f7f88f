/** A part of an ECharts option. Its own types are wide; what is put in here is checked by looking at the chart. */
export type Series = Record<string, unknown>
/** The strip of the chart on which a series is drawn. */
export type Where = { xAxisIndex: number; yAxisIndex: number }

/** The resolved colours of the tokens, and the hatch of a day that is not complete, which only a browser can draw. */
export type Inks = {
  ink: string
  ink2: string
  rule: string
  sheet: string
  output: string
  outputBefore: string
  outputEdge: string
  band: string
  bandEdge: string
  owed: string
  urgency: readonly [string, string, string, string]
  urgencyEdge: string
  urgencyInk: string
  face: string
  hatch: unknown
}

/** What ECharts hands to a series that draws itself: values of the item, and where they stand in pixels. */
export type Pen = {
  value(dimension: number): number
  coord(point: readonly [number, number]): [number, number]
  size(span: readonly [number, number]): [number, number]
}
export type Place = {
  dataIndex: number
  coordSys: { x: number; y: number; width: number; height: number }
}
export type Shape = Record<string, unknown>

/** A series that draws its own shapes, one an item, clipped to its strip from left to right. */
export const drawn = (
  where: Where,
  data: readonly (readonly number[])[],
  renderItem: (place: Place, pen: Pen) => Shape | null,
  rest: Series = {},
): Series => ({
  ...where,
  type: 'custom',
  data,
  encode: { x: 0, y: 1 },
  silent: true,
  renderItem: (place: Place, pen: Pen) => renderItem(place, pen) ?? undefined,
  ...rest,
})

/** A rectangle from one corner to the other, cut off at the sides of its strip; null where nothing of it is seen. */
export function boxWithin(
  { coordSys: { x, width } }: Place,
  [x1, y1]: readonly [number, number],
  [x2, y2]: readonly [number, number],
): { x: number; y: number; width: number; height: number } | null {
  const left = Math.max(x, Math.min(x1, x2))
  const right = Math.min(x + width, Math.max(x1, x2))
  return right > left
    ? { x: left, y: Math.min(y1, y2), width: right - left, height: Math.abs(y2 - y1) }
    : null
}

/** Words on the chart, on a ground or in a halo where a line would otherwise strike through. */
export const words = (
  text: string,
  at: { x: number; y: number; align?: string; verticalAlign?: string },
  inks: Inks,
  { color = inks.ink, ground = '', halo = '' }: { color?: string; ground?: string; halo?: string } = {},
): Shape => ({
  type: 'text',
  z2: 20,
  style: {
    text,
    ...at,
    fill: color,
    font: `12px ${inks.face}`,
    lineHeight: 14,
    ...(halo ? { stroke: halo, lineWidth: 3 } : {}),
    ...(ground ? { backgroundColor: ground, padding: [1, 2] } : {}),
  },
})

/** Words that a line would otherwise strike through. */
export const onSheet = (inks: Inks): Series => ({ backgroundColor: inks.sheet, padding: [1, 2] })
