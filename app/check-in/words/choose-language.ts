import { isLanguage, type Language } from '@/lib/domain/language-list.ts'

/** The language chosen on this phone, if one was. */
export const LANGUAGE_COOKIE = 'check-in-language'

/**
 * The chosen language if there is one, else the first of the browser's that we have, else English.
 * @example chosenLanguage(undefined, 'fr;q=0.9, es-MX;q=0.8') // 'es'
 */
export function chosenLanguage(chosen: string | undefined, acceptLanguage: string | null): Language {
  return isLanguage(chosen) ? chosen : (firstAccepted(acceptLanguage ?? '') ?? 'en')
}

function firstAccepted(header: string): Language | undefined {
  const wanted = header
    .split(',')
    .map((part, at) => {
      const [tag = '', ...options] = part.trim().toLowerCase().split(';')
      const quality = options.map((option) => /^\s*q=([\d.]+)/.exec(option)?.[1]).find(Boolean)
      return { language: tag.split('-')[0], quality: Number(quality ?? 1), at }
    })
    .filter(({ quality }) => quality > 0)
    .sort((a, b) => b.quality - a.quality || a.at - b.at)
  return wanted.map(({ language }) => language).find(isLanguage)
}
