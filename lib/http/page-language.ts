import { Language } from '../domain/languages.ts'

/** Says in which language the check-in page is shown. The browser's own Accept-Language may be that of a borrowed phone. */
const HEADER = 'Outflow-Language'

/** The language of the page that asks; undefined where it says none that there is. */
export const pageLanguage = (headers: Headers): Language | undefined =>
  Language.safeParse(headers.get(HEADER)).data
