import { type Face, faces } from './fonts.ts'

/** Letters of one face that follow one another. */
export type Run = { face: Face; text: string }
/** What is never broken over two lines; `rtl`: it is read from the right. */
export type Word = { runs: Run[]; rtl: boolean }

const RTL = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc]/
/** Stands for a letter that no face has. */
const MISSING = '?'

/** A text as words of runs. `onMissing` is told of each letter that cannot be drawn. */
export const wordsOf = (text: string, onMissing: (letter: string) => void): Word[] =>
  text
    .split(/\s+/)
    .filter(Boolean)
    .map((word) => ({ runs: runsOf(word, onMissing), rtl: RTL.test(word) }))

function runsOf(word: string, onMissing: (letter: string) => void): Run[] {
  const all = faces()
  const [first] = all
  if (!first) return []
  const runs: Run[] = []
  for (const letter of word.normalize('NFC')) {
    const codePoint = letter.codePointAt(0) ?? 0
    const last = runs.at(-1)
    // What a face has is drawn with it for as long as it can be: joined letters must stay in one run.
    const face = last?.face.covers(codePoint) ? last.face : all.find(({ covers }) => covers(codePoint))
    if (!face) onMissing(letter)
    const drawn = { face: face ?? first, text: face ? letter : MISSING }
    if (last && last.face === drawn.face) last.text += drawn.text
    else runs.push(drawn)
  }
  return runs
}

/** The words of one line as they stand from left to right: neighbours that are read from the right change places. */
export function inSight(line: readonly Word[]): Word[] {
  const seen: Word[] = []
  let block: Word[] = []
  for (const word of line) {
    if (word.rtl) {
      block.unshift(word)
      continue
    }
    seen.push(...block, word)
    block = []
  }
  return [...seen, ...block]
}
