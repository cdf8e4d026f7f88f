import { cookies } from 'next/headers'
import { now } from '@/lib/clock.ts'
import type { CheckInView } from '@/lib/domain/check-in.ts'
import { Language } from '@/lib/domain/languages.ts'
import { CheckIn } from './check-in.tsx'
import { Spoken } from './spoken.tsx'
import { wordsFor } from './words/catalogues.ts'
import { LANGUAGE_COOKIE } from './words/choose-language.ts'
import { pageLanguage } from './words/page-language.ts'
import { buildId } from './worker/build.ts'

type Props = { clinic: CheckInView['clinic'] | null; asked: string | string[] | undefined }

/**
 * The page as the server draws it. What matters most needs no script: whom to call, and whether somebody reads reports
 * now. A clinic's name and numbers are public; the link's token is in the fragment, which no server sees.
 */
export async function CheckInPage({ clinic, asked }: Props) {
  const wanted = Language.safeParse(asked)
  const language = wanted.success ? wanted.data : await pageLanguage()
  const chosen = wanted.success || (await cookies()).has(LANGUAGE_COOKIE)
  return (
    <Spoken words={wordsFor(language)} language={language} chosen={chosen}>
      <CheckIn clinic={clinic} at={now().toISOString()} build={buildId()} />
    </Spoken>
  )
}
