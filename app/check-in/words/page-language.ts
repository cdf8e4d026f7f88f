import { cookies, headers } from 'next/headers'
import { Language } from '@/lib/domain/languages.ts'
import { PATH_HEADER } from '@/lib/http/path-header.ts'
import { chosenLanguage, LANGUAGE_COOKIE } from './choose-language.ts'

/** The language of a page that patients see: the one chosen on this phone, else the browser's first that we have. */
export async function pageLanguage(): Promise<Language> {
  return chosenLanguage(await cookie(), (await headers()).get('accept-language'))
}

/** Whether a language was chosen on this phone, so that none need be suggested. */
export const hasChosenLanguage = async (): Promise<boolean> => Language.safeParse(await cookie()).success

const cookie = async () => (await cookies()).get(LANGUAGE_COOKIE)?.value

/** Pages for patients; the staff's are in English. */
const forPatients = /^\/(check-in|stop)(\/|$)/

/** The language in which the page of this request is written: that of its address (`?language=es`) before any other. */
export async function documentLanguage(): Promise<Language> {
  const { pathname, searchParams } = new URL((await headers()).get(PATH_HEADER) ?? '/', 'http://page.invalid')
  if (!forPatients.test(pathname)) return 'en'
  const asked = Language.safeParse(searchParams.get('language'))
  return asked.success ? asked.data : pageLanguage()
}
