import { fleschKincaid } from 'flesch-kincaid'
import { syllable } from 'syllable'

/** What a readability formula counts. Places to fill in count as one short word, numbers as one. */
type Counts = { sentences: number; words: number; syllables: number }

/** The texts' sentences end at a full stop, a question or exclamation mark, a colon, or where the text does. */
const sentencesOf = (text: string): string[] =>
  text
    .replace(/\{\w+\}/g, 'ten')
    .split(/[.!?:…]+(?:\s|$)/)
    .map((sentence) => sentence.trim())
    .filter((sentence) => /\p{L}/u.test(sentence))

const wordsOf = (sentence: string): string[] => sentence.match(/[\p{L}\d][\p{L}\d'’]*/gu) ?? []

function counted(text: string, syllablesOf: (word: string) => number): Counts {
  const sentences = sentencesOf(text).map(wordsOf)
  const words = sentences.flat()
  return {
    sentences: sentences.length,
    words: words.length,
    syllables: words.reduce((sum, word) => sum + (/\p{L}/u.test(word) ? syllablesOf(word) : 1), 0),
  }
}

/** How many words a text has: a formula says nothing of three words. */
export const wordCount = (text: string): number => sentencesOf(text).flatMap(wordsOf).length

/**
 * School grade of an English text by Flesch–Kincaid: 0.39 × words per sentence + 11.8 × syllables per word
 * − 15.59 (Kincaid and others, Naval Technical Training Command, 1975; from memory).
 */
export function englishGrade(text: string): number {
  const { sentences, words, syllables } = counted(text, syllable)
  return fleschKincaid({ sentence: sentences, word: words, syllable: syllables })
}

/**
 * Syllables of a Spanish word by the rules of its spelling: a group of vowels is one, except that a strong vowel
 * beside a strong one, and a weak one with an accent, begin a syllable of their own (Real Academia Española,
 * Ortografía, 2010; from memory). 'qu', 'gu' before e and i, and y before a vowel are
 * consonants.
 * @example spanishSyllables('vacío') // 3
 */
export const spanishSyllables = (word: string): number =>
  word
    .toLowerCase()
    .replace(/qu|gu(?=[eiéí])|y(?=[aeiouáéíóú])/g, 'k')
    .match(/[iuü]?[aeoáéó][iuy]?(?![aeoáéó])|[iuü]?[aeoáéó]|[íú]|[iuüy]+/g)?.length ?? 1

/**
 * Reading ease of a Spanish text by Fernández Huerta: 206.84 − 60 × syllables per word − 1.02 × words per
 * sentence (Fernández Huerta, Consigna 214:29–32, 1959; in the form set right by G. Law, LINGUIST List
 * 22.2332, 2011; read in a secondary copy, legible.es). There 70 to 80 is the sixth school grade, more is easier.
 */
export function spanishEase(text: string): number {
  const { sentences, words, syllables } = counted(text, spanishSyllables)
  return 206.84 - (60 * syllables) / words - (1.02 * words) / sentences
}

/** Reading ease from which a Spanish text is for the sixth grade or below. */
export const SPANISH_SIXTH_GRADE = 70
