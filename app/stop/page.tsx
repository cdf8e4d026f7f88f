import type { Metadata } from 'next'
import { type Language, languages } from '@/lib/domain/languages.ts'
import { PROJECT } from '@/lib/domain/project.ts'
import { reminderTexts } from '@/lib/domain/texts/reminder.ts'
import { stopView } from '@/lib/intake/index.ts'
import css from './stop.module.css'

export const metadata: Metadata = { title: { absolute: PROJECT }, robots: { index: false, follow: false } }

/** What a stop link opens. To look changes nothing, since mail programs look at links by themselves: the button does. */
export default async function StopPage({
  searchParams,
}: {
  searchParams: Promise<{ t?: string | string[] }>
}) {
  const { t } = await searchParams
  const token = typeof t === 'string' ? t : ''
  const view = await stopView(token)
  if (!view) return <NotValid />
  const { language, clinicPhone, stopped } = view
  const texts = reminderTexts[language]
  return (
    <main className={css.sheet} lang={language} dir={languages[language].dir}>
      <h1>{texts.stopTitle}</h1>
      {stopped ? (
        <>
          <p role="status">{texts.stopped}</p>
          <p>{texts.again(clinicPhone)}</p>
        </>
      ) : (
        <form method="post" action={`/api/stop?t=${encodeURIComponent(token)}`}>
          <p>{texts.stopAsk}</p>
          <button type="submit" data-main>
            {texts.stopButton}
          </button>
        </form>
      )}
    </main>
  )
}

/** Nothing is known of whoever comes with a link that is not ours: so it says so in every language. */
function NotValid() {
  return (
    <main className={css.sheet}>
      <h1>{reminderTexts.en.stopTitle}</h1>
      {(Object.keys(languages) as Language[]).map((language) => (
        <p key={language} lang={language} dir={languages[language].dir}>
          {reminderTexts[language].notValid}
        </p>
      ))}
    </main>
  )
}
