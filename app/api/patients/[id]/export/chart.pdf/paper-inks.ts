import type { Inks } from '../../../../../ui/timeline/series.ts'

/** Side of the tile that the hatch repeats, px. */
const TILE = 8

/** The tokens as paper has them: where the server draws no style sheet is resolved. */
export const paperInks: Inks = {
  ink: '#000000',
  ink2: '#3c444d',
  rule: '#b9b4a6',
  sheet: '#ffffff',
  output: '#2f5d73',
  outputBefore: '#a9c0ca',
  outputEdge: '#6c8897',
  band: '#e3e9e6',
  bandEdge: '#6a857b',
  owed: '#6b5b2e',
  urgency: ['#e6c9d0', '#c47f92', '#9c3a56', '#6d1a36'],
  urgencyEdge: '#8c2f4b',
  urgencyInk: '#6d1a36',
  face: 'sans-serif',
  // Diagonal lines, as a pattern of an SVG.
  hatch: {
    svgElement: {
      tag: 'path',
      key: 'hatch',
      attrs: { d: 'M0 8L8 0M-2 2L2 -2M6 10L10 6', stroke: '#2f5d73', 'stroke-width': 1.75, fill: 'none' },
    },
    svgWidth: TILE,
    svgHeight: TILE,
  },
}
