import { dayAndTime, fullDate, localDate } from '@/lib/domain/local-time.ts'
import type { LinkInList } from '@/lib/domain/patient-link.ts'
import css from './links.module.css'
import type { LinkStep } from './use-links.ts'

type Props = {
  links: readonly LinkInList[]
  zone: string
  isBusy: boolean
  step: (step: LinkStep) => void
}

/** The links in force: whose each is, since when, when it was last opened and how long it lives. */
export function LinksList({ links, zone, isBusy, step }: Props) {
  if (links.length === 0) return <p>No link is in force.</p>
  return (
    <ul className={css.list} aria-label="Links">
      {links.map((link) => {
        const holder = link.holderName ?? 'Patient'
        const names = link.holder === 'helper' ? `${holder}, helper` : holder
        return (
          <li key={link.id} className={css.link}>
            <div>
              <p>
                <b>{names}</b>
                {link.holder === 'helper' && !link.maySee ? ' · sees no earlier entries' : null}
              </p>
              <p className={css.about}>{lifeOf(link, zone)}</p>
            </div>
            <p>
              <button type="button" aria-disabled={isBusy} onClick={() => step({ what: 'replace', link })}>
                Replace<span className="for-reader"> the link of {names}</span>
              </button>{' '}
              <button
                type="button"
                data-quiet
                aria-disabled={isBusy}
                onClick={() => step({ what: 'end', link })}
              >
                End<span className="for-reader"> the link of {names}</span>
              </button>
            </p>
          </li>
        )
      })}
    </ul>
  )
}

function lifeOf({ since, lastOpenedAt, expiresAt, hasExpired }: LinkInList, zone: string): string {
  const day = (instant: string) => fullDate(localDate(instant, zone))
  const opened = lastOpenedAt === null ? 'never opened' : `last opened ${dayAndTime(lastOpenedAt, zone)}`
  return `Since ${day(since)} · ${opened} · ${hasExpired ? 'expired' : 'until'} ${day(expiresAt)}`
}
