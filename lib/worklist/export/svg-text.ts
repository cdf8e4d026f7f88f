import { faces } from '../print/fonts.ts'
import { inSight, type Word } from '../print/words.ts'

const FAMILY = 'face-'

/** The file of a font that `withFaces` names; of any other the first face's. */
export function fontFile(family: string, bold: boolean): string {
  const all = faces()
  const face = all.find(({ name }) => family === FAMILY + name) ?? all[0]
  if (!face) throw new Error('fonts: there is none')
  return bold ? face.bold : face.regular
}

/**
 * Names for each part of each text of an SVG a face that has its letters: one font alone holds no more than one script.
 * @param words splits a text into runs of one face, and notes the letters that none has
 */
export const withFaces = (svg: string, words: (text: string) => Word[]): string =>
  svg.replace(/>([^<>]+)<\/text>/g, (_, text: string) => `>${spans(words(plain(text)))}</text>`)

const spans = (words: readonly Word[]): string =>
  inSight(words)
    .map(({ rtl, runs }, i) =>
      (rtl ? runs.toReversed() : runs)
        .map(({ face, text }, k) => {
          const space = i > 0 && k === 0 ? ' ' : ''
          return `<tspan font-family="${FAMILY}${face.name}" xml:space="preserve">${space}${escaped(text)}</tspan>`
        })
        .join(''),
    )
    .join('')

const entities: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" }
const plain = (text: string) =>
  text.replace(/&(amp|lt|gt|quot|#39);/g, (_, name: string) => entities[name] ?? '')
const escaped = (text: string) =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;')
