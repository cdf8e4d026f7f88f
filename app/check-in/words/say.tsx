'use client'

import { createContext, type ReactNode, useContext, useMemo } from 'react'
import type { Language } from '@/lib/domain/languages.ts'
import { type Catalogue, type Say, sayIn } from './catalogue.ts'

export type { Say, WordKey } from './catalogue.ts'

type Spoken = { say: Say; review: string | null }
const Words = createContext<Spoken | null>(null)

type Props = { words: Catalogue; language: Language; children: ReactNode }

/** Gives the page its words. They come with the page from the server, so that the script holds no language. */
export function WordsProvider({ words, language, children }: Props) {
  const spoken = useMemo(
    () => ({ say: sayIn(words, language), review: words._review ?? null }),
    [words, language],
  )
  return <Words value={spoken}>{children}</Words>
}

function useWords(): Spoken {
  const spoken = useContext(Words)
  if (!spoken) throw new Error('words are asked for outside their provider')
  return spoken
}

export const useSay = (): Say => useWords().say

/** Says that nobody qualified has read this translation yet; null where somebody has. */
export const useReviewMark = (): string | null => useWords().review
