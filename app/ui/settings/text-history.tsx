import type { TextInLanguage, TextVersion } from '@/lib/domain/advice-text-page.ts'
import { languages } from '@/lib/domain/languages.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'
import css from './settings.module.css'

type Props = {
  text: TextInLanguage
  zone: string
  /** Null for whoever may not approve. */
  onApprove: ((version: TextVersion) => void) | null
}

/** The clinic's own versions of a text, the newest first: who wrote each, who approved it, who read it. */
export function TextHistory({ text, zone, onApprove }: Props) {
  const { language, versions, inForce } = text
  if (versions.length === 0) return null
  const inForceNumber = inForce.version === 'standard' ? 0 : Number(inForce.version)
  const isWaiting = versions.some(({ version }) => version > inForceNumber)
  return (
    <details open={isWaiting}>
      <summary>
        {versions.length === 1 ? '1 version of the clinic' : `${versions.length} versions of the clinic`}
      </summary>
      <ol className={css.history}>
        {versions.map((one) => (
          <li key={one.id}>
            <p lang={language} dir={languages[language].dir}>
              {one.text}
            </p>
            <p className={css.quiet}>{historyOf(one, zone)}</p>
            {one.approvedAt === null && one.version > inForceNumber ? (
              <p className={css.unread}>Not approved: patients do not read it yet</p>
            ) : null}
            {onApprove && one.approvedAt === null && one.version > inForceNumber ? (
              <button type="button" onClick={() => onApprove(one)}>
                Approve version {one.version}
                <span className="for-reader"> in {languages[language].name}</span>
              </button>
            ) : null}
          </li>
        ))}
      </ol>
    </details>
  )
}

function historyOf(one: TextVersion, zone: string): string {
  const written = `Version ${one.version}, written ${dayAndTime(one.writtenAt, zone)} by ${one.writtenBy}`
  if (one.approvedAt === null) return `${written}.`
  const read = one.readBy ? `, read by ${one.readBy}` : ''
  return `${written}; approved ${dayAndTime(one.approvedAt, zone)} by ${one.approvedBy ?? 'unknown'}${read}.`
}
