import { capital } from '@/lib/domain/capital.ts'
import type { HandOut } from '@/lib/domain/hand-out.ts'
import { dangerLines, fullDateText, hoursLines, orderLines, running } from '@/lib/domain/hand-out-lines.ts'
import { type Language, languages } from '@/lib/domain/languages.ts'
import { localDate } from '@/lib/domain/local-time.ts'
import { handOutTexts } from '@/lib/domain/texts/hand-out.ts'
import { BodyPicture } from './body-picture.tsx'
import css from './hand-out.module.css'
import { DRAINS_A_LOG, PaperLog } from './paper-log.tsx'
import { QrCode } from './qr-code.tsx'

type Props = { handOut: HandOut; language: Language; link: string | null; onDrawn: () => void }

/** What is printed: one page to keep in sight, then the paper log. More drains than three go on to further pages. */
export function Sheet({ handOut, language, link, onDrawn }: Props) {
  const { clinic, patient, drains, asOf } = handOut
  const text = handOutTexts[language]
  const danger = dangerLines(handOut, text)
  const today = localDate(asOf, clinic.timeZone)
  const numbered = drains.map((drain, i) => ({ drain, number: i + 1 }))
  const logs = numbered.filter((_, i) => i % DRAINS_A_LOG === 0).map((_, i) => i * DRAINS_A_LOG)
  const { steps } = text
  return (
    <article className={css.sheet} lang={language} dir={languages[language].dir}>
      <div className={css.front}>
        <header className={css.head}>
          <div className={css.who}>
            <p className={css.person}>
              <b>{patient.name}</b> · {text.born(fullDateText(patient.birthDate, text))}
            </p>
            <p>{clinic.name}</p>
          </div>
        </header>
        <div className={css.body}>
          <h1>{text.title}</h1>
          <section className={css.drains}>
            <BodyPicture drains={drains} text={text} />
            <ol>
              {numbered.map(({ drain, number }) => (
                <li key={drain.id} className={css.drain}>
                  <p className={css.name}>
                    <span className={css.mark}>{number}</span> <b>{capital(drain.label)}</b>
                    {' · '}
                    {text.places[drain.kind]}
                    {drain.side ? ` · ${text.sides[drain.side]}` : ''}
                  </p>
                  <p>{running(orderLines(drain, text, clinic.timeZone))}</p>
                </li>
              ))}
            </ol>
          </section>
          <section className={css.each}>
            <div>
              <h2>{text.eachTime}</h2>
              <ol className={css.steps}>
                {[steps.read, steps.look, steps.write, steps.body, link ? steps.send : steps.sendPaper].map(
                  (step) => (
                    <li key={step}>{step}</li>
                  ),
                )}
              </ol>
            </div>
            <div>
              {link ? (
                <>
                  <QrCode link={link} label={text.scan} onDrawn={onDrawn} />
                  <p className={css.fine}>{text.scan}</p>
                  <p className={css.address} dir="ltr">
                    {link}
                  </p>
                </>
              ) : (
                <p>{text.noLink}</p>
              )}
            </div>
          </section>
          <section className={css.danger}>
            <Lines title={text.emergency} lines={danger.emergency} strong />
            <Lines title={text.callNow} lines={danger.callNow} />
            <p className={css.today}>
              <b>{text.callToday}</b> {text.joined(danger.callToday)}.
            </p>
          </section>
          <section className={css.numbers}>
            <p>
              {text.call}{' '}
              <b>
                <bdi dir="ltr">{clinic.phone}</bdi>
              </b>
            </p>
            {clinic.afterHoursPhone ? (
              <p>
                {text.afterHours}{' '}
                <b>
                  <bdi dir="ltr">{clinic.afterHoursPhone}</bdi>
                </b>
              </p>
            ) : null}
            <p>{running(hoursLines(clinic.hours, today, text))}</p>
          </section>
          <p className={css.fine}>
            {text.cautions} {text.made(fullDateText(today, text))}. {clinic.demo ? text.demo : ''}{' '}
            {text.unread ? <b>{text.unread}</b> : null}
          </p>
        </div>
      </div>
      {logs.map((from) => (
        <PaperLog
          key={from}
          handOut={handOut}
          drains={numbered.slice(from, from + DRAINS_A_LOG)}
          text={text}
        />
      ))}
    </article>
  )
}

function Lines({ title, lines, strong }: { title: string; lines: readonly string[]; strong?: boolean }) {
  return (
    <div className={strong ? `${css.box} ${css.strong}` : css.box}>
      <h2>{title}</h2>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </div>
  )
}
