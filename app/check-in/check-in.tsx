'use client'

import { useEffect } from 'react'
import type { CheckInView } from '@/lib/domain/check-in.ts'
import { languages } from '@/lib/domain/language-list.ts'
import { CallBar } from './parts/call-bar.tsx'
import { Footer } from './parts/footer.tsx'
import { LanguageSwitch } from './parts/language-switch.tsx'
import { Notices } from './parts/notices.tsx'
import { OpenNow } from './parts/open-now.tsx'
import { useLanguageChoice } from './spoken.tsx'
import { Stage } from './stage.tsx'
import { useNow } from './visit/use-now.ts'
import { useOneTap } from './visit/use-one-tap.ts'
import { useVisit } from './visit/use-visit.ts'
import { useWorker } from './visit/use-worker.ts'
import { useSay } from './words/say.tsx'

type Props = {
  /** As the server knows it from the address or the session, before anything has run here. */
  clinic: CheckInView['clinic'] | null
  at: string
  build: string
}

/** The screens that say themselves, where it fits, whether somebody reads reports now. */
const saysItself: ReadonlySet<string> = new Set(['form', 'waiting', 'receipt', 'forget', 'choose'])

/** The check-in of one person, from their link to the receipt. */
export function CheckIn({ clinic: front, at, build }: Props) {
  const say = useSay()
  const visit = useVisit()
  const { language, suggest } = useLanguageChoice()
  const { phase, view } = visit
  const now = useNow(at, visit.clock)
  const clinic = view?.clinic ?? front
  useOneTap()
  useWorker(phase.name !== 'opening', build)

  const own = view?.patient.language
  useEffect(() => {
    if (own) suggest(own)
  }, [own, suggest])

  return (
    <main className="check-in" lang={language} dir={languages[language].dir} data-build={build}>
      <LanguageSwitch />
      {clinic ? null : <p className="emergency">{say('emergency')}</p>}
      <p className="whose">
        {view ? `${say('hello', { name: view.patient.firstName })} · ` : null}
        {clinic ? clinic.name : say('clinicNumber')}
        {clinic?.demo ? <span>{say('demo')}</span> : null}
      </p>
      <noscript>
        <p>{say('noScript')}</p>
      </noscript>
      {clinic && !saysItself.has(phase.name) ? <OpenNow clinic={clinic} now={now} /> : null}
      <Notices visit={visit} />
      <Stage visit={visit} now={now} />
      <Footer visit={visit} />
      {clinic ? <CallBar clinic={clinic} /> : null}
    </main>
  )
}
