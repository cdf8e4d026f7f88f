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

/** A level's words and its number, beside the chart. */
export const level = (says: string, color: string): Series => ({
  formatter: says.replace(/ (?=\d+$)/, '\n'),
  position: 'end',
  color,
  fontSize: 12,
  lineHeight: 14,
})

/** Words that a line would otherwise strike through. */
export const onSheet = (inks: Inks): Series => ({ backgroundColor: inks.sheet, padding: [1, 2] })
