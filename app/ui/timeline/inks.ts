import type { Inks } from './series.ts'

/** The tokens as the page resolves them now: light, dark or print. */
export function inksOf(element: Element): Inks {
  const style = getComputedStyle(element)
  const value = (name: string) => style.getPropertyValue(`--${name}`).trim()
  const output = value('output')
  const sheet = value('sheet')
  return {
    ink: value('ink'),
    ink2: value('ink-2'),
    rule: value('rule'),
    sheet,
    output,
    outputBefore: value('output-before'),
    outputEdge: value('output-edge'),
    band: value('band'),
    bandEdge: value('band-edge'),
    owed: value('owed'),
    urgency: [value('urgency-1'), value('urgency-2'), value('urgency-3'), value('urgency-4')],
    urgencyEdge: value('urgency-edge'),
    urgencyInk: value('urgency-ink'),
    face: value('face'),
    hatch: hatchOf(output, sheet),
  }
}

/** Diagonal lines on the sheet, as a pattern that repeats. */
function hatchOf(line: string, ground: string): unknown {
  const size = 8
  const tile = document.createElement('canvas')
  tile.width = size
  tile.height = size
  const pen = tile.getContext('2d')
  if (!pen) return ground
  pen.fillStyle = ground
  pen.fillRect(0, 0, size, size)
  pen.strokeStyle = line
  pen.lineWidth = 1.75
  for (const shift of [-size, 0, size]) {
    pen.beginPath()
    pen.moveTo(shift, size)
    pen.lineTo(shift + size, 0)
    pen.stroke()
  }
  return { image: tile, repeat: 'repeat' }
}
