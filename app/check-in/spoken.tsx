'use client'

import { createContext, type ReactNode, useCallback, useContext, useEffect, useMemo, useState } from 'react'
import { type Language, languages } from '@/lib/domain/language-list.ts'
import type { Catalogue } from './words/catalogue.ts'
import { LANGUAGE_COOKIE } from './words/choose-language.ts'
import { WordsProvider } from './words/say.tsx'

type Choice = {
  language: Language
  /** Remembered on this phone. */
  choose: (language: Language) => Promise<void>
  /** The person's language as the clinic knows it: taken where nobody has chosen on this phone. */
  suggest: (language: Language) => void
}
const LanguageChoice = createContext<Choice | null>(null)

export function useLanguageChoice(): Choice {
  const choice = useContext(LanguageChoice)
  if (!choice) throw new Error('the language is chosen outside its provider')
  return choice
}

const YEAR_S = 365 * 86_400

type Props = { words: Catalogue; language: Language; chosen: boolean; children: ReactNode }

/** The page's language: the one that came from the server, and another without a reload. */
export function Spoken({ words, language, chosen, children }: Props) {
  const [spoken, setSpoken] = useState({ words, language })
  const [hasChosen, setHasChosen] = useState(chosen)
  const now = spoken.language

  useEffect(() => {
    document.documentElement.lang = now
    document.documentElement.dir = languages[now].dir
  }, [now])

  const change = useCallback(async (to: Language) => {
    // biome-ignore lint/suspicious/noDocumentCookie: the other way to set one is missing in old phones' browsers
    document.cookie = `${LANGUAGE_COOKIE}=${to}; Path=/; Max-Age=${YEAR_S}; SameSite=Lax`
    const answer = await fetch(`/check-in/words.json?language=${to}`).catch(() => null)
    if (!answer?.ok) return
    setSpoken({ words: (await answer.json()) as Catalogue, language: to })
    navigator.serviceWorker?.controller?.postMessage('keep-pages')
  }, [])

  const choice = useMemo<Choice>(
    () => ({
      language: now,
      choose: (to) => {
        setHasChosen(true)
        return change(to)
      },
      suggest: (to) => {
        if (hasChosen || to === now) return
        setHasChosen(true)
        void change(to)
      },
    }),
    [now, hasChosen, change],
  )

  return (
    <LanguageChoice value={choice}>
      <WordsProvider words={spoken.words} language={spoken.language}>
        {children}
      </WordsProvider>
    </LanguageChoice>
  )
}
