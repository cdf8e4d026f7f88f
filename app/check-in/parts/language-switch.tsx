'use client'

import { languageList, languages } from '@/lib/domain/language-list.ts'
import { useLanguageChoice } from '../spoken.tsx'
import { useSay } from '../words/say.tsx'

/**
 * Each language by its own name. What was answered stays where it is. Links, so that they work before any
 * script has run.
 */
export function LanguageSwitch() {
  const say = useSay()
  const { choose } = useLanguageChoice()
  return (
    <nav className="languages" aria-label={say('language')}>
      {languageList.map((language) => (
        <a
          key={language}
          href={`?language=${language}`}
          lang={language}
          hrefLang={language}
          dir={languages[language].dir}
          aria-current={language === say.language ? 'true' : undefined}
          onClick={(event) => {
            event.preventDefault()
            void choose(language)
          }}
        >
          {languages[language].name}
        </a>
      ))}
    </nav>
  )
}
