'use client'

import { useSuspenseQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { adviceTextsQuery } from '@/lib/client/settings-queries.ts'
import type { AdviceTextsPage, TextInLanguage } from '@/lib/domain/advice-text-page.ts'
import { languages } from '@/lib/domain/languages.ts'
import { may, type StaffMember } from '@/lib/domain/staff.ts'
import form from '../parts/form.module.css'
import css from './settings.module.css'
import { type OpenText, TextDialog } from './text-dialog.tsx'
import { TextHistory } from './text-history.tsx'
import { adviceUrgencyLabels, caseLabels } from './text-labels.ts'

type Case = AdviceTextsPage['cases'][number]
type Props = { staff: StaffMember; zone: string }

/** What patients are told, by case, each language beside the English. */
export function TextsScreen({ staff, zone }: Props) {
  const { data } = useSuspenseQuery(adviceTextsQuery)
  const [open, setOpen] = useState<OpenText | null>(null)
  const [says, setSays] = useState('')
  const mayApprove = may(staff.role, 'approve-text')
  const unread = data.cases.flatMap((one) => one.languages).filter(({ inForce }) => !inForce.read).length
  return (
    <>
      <h1>Texts for patients</h1>
      <p className={form.hint}>
        One fixed text for each case and language, the most urgent first. A change is a further version, which
        patients read once a physician has approved it.
      </p>
      {unread > 0 ? (
        <p className={css.unread}>
          {unread} texts that patients can read have not been read by a qualified person. A translation is
          approved with the name of whoever read it.
        </p>
      ) : null}
      <p role="status">{says}</p>
      {data.cases.map((one) => (
        <section key={one.name} className={css.case} aria-label={caseLabels[one.name]}>
          <h2>{caseLabels[one.name]}</h2>
          <p className={css.quiet}>{adviceUrgencyLabels[one.urgency]}</p>
          <div className={css.languages}>
            {one.languages.map((text) => (
              <OneLanguage
                key={text.language}
                text={text}
                onWrite={() => setOpen({ ...aboutText(one, text), what: 'write' })}
                history={
                  <TextHistory
                    text={text}
                    zone={zone}
                    onApprove={
                      mayApprove
                        ? (version) => setOpen({ ...aboutText(one, text), what: 'approve', version })
                        : null
                    }
                  />
                }
              />
            ))}
          </div>
        </section>
      ))}
      {open ? (
        <TextDialog
          open={open}
          onClose={() => setOpen(null)}
          onDone={(done) => {
            setOpen(null)
            setSays(done)
          }}
        />
      ) : null}
    </>
  )
}

const aboutText = (one: Case, text: TextInLanguage) => ({
  case: one.name,
  text,
  english: one.languages.find(({ language }) => language === 'en')?.inForce.text ?? '',
})

type LanguageProps = { text: TextInLanguage; onWrite: () => void; history: React.ReactNode }

function OneLanguage({ text, onWrite, history }: LanguageProps) {
  const { language, inForce } = text
  const { name, dir } = languages[language]
  return (
    <div className={css.language}>
      <h3 lang={language}>{name}</h3>
      <p className={css.words} lang={language} dir={dir}>
        {inForce.text}
      </p>
      <p className={css.quiet}>
        {inForce.version === 'standard' ? 'Standard text' : `Version ${inForce.version}`}
      </p>
      {inForce.read ? null : <p className={css.unread}>Not read by a qualified person</p>}
      <button type="button" data-quiet onClick={onWrite}>
        Write another version<span className="for-reader"> in {name}</span>
      </button>
      {history}
    </div>
  )
}
