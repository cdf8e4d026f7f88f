'use client'

import { useMutation } from '@tanstack/react-query'
import Link from 'next/link'
import { type ReactNode, useCallback, useEffect, useState } from 'react'
import { z } from 'zod'
import { ask } from '@/lib/client/ask.ts'
import { newKey } from '@/lib/client/new-key.ts'
import { patientDoor } from '@/lib/client/patient-door.ts'
import { faultFrom } from '@/lib/client/use-send.ts'
import type { HandOut } from '@/lib/domain/hand-out.ts'
import { type Language, languages } from '@/lib/domain/languages.ts'
import { handOutTexts } from '@/lib/domain/texts/hand-out.ts'
import { Cautions } from '../parts/cautions.tsx'
import { Field } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import { Select } from '../parts/select.tsx'
import css from './hand-out.module.css'
import { Sheet } from './sheet.tsx'
import { useKeptLink } from './use-kept-link.ts'

const Issued = z.looseObject({ link: z.string() })
const names = Object.fromEntries(Object.entries(languages).map(([code, { name }]) => [code, name])) as Record<
  Language,
  string
>

/** The hand-out as it will be printed, under a bar that is not: its language, its link, and the button that prints. */
export function HandOutScreen({ handOut, header }: { handOut: HandOut; header: ReactNode }) {
  const { patient } = handOut
  const door = patientDoor(patient.id)
  const [language, setLanguage] = useState<Language>(patient.language)
  const [withLink, setWithLink] = useState(true)
  /** What waits for the page to show it, then for the printer. */
  const [waiting, setWaiting] = useState<'link' | 'no link' | null>(null)
  const [drawn, setDrawn] = useState<string | null>(null)
  const [key] = useState(newKey)
  const kept = useKeptLink(patient.id)
  const shown = withLink ? kept.link : null
  const onDrawn = useCallback(() => setDrawn(shown), [shown])

  const issue = useMutation({
    mutationFn: () => ask(`${door}/link`, Issued, { method: 'POST', key }),
    onSuccess: ({ link }) => kept.take(link),
    onError: () => setWaiting(null),
  })
  const note = useMutation({
    mutationFn: (link: boolean) =>
      ask(`${door}/hand-out`, z.unknown(), { method: 'POST', body: { language, link } }),
    onSuccess: (_, link) => {
      if (link) kept.forget()
      window.print()
    },
  })
  const isReady = waiting === 'no link' ? shown === null : shown !== null && drawn === shown
  const { mutate } = note
  useEffect(() => {
    if (waiting === null || !isReady) return
    setWaiting(null)
    mutate(waiting === 'link')
  }, [waiting, isReady, mutate])

  const print = (link: boolean) => {
    setWithLink(link)
    if (link && kept.link === null) issue.mutate()
    setWaiting(link ? 'link' : 'no link')
  }
  const error = issue.error ?? note.error
  const isBusy = issue.isPending || note.isPending
  return (
    <div className={css.screen}>
      <div className={css.bar}>{header}</div>
      <main>
        <div className={css.bar}>
          <div className={form.row}>
            <Field label="Language of the hand-out" hint={handOutTexts[language].unread ?? undefined}>
              {(wired) => (
                <Select
                  {...wired}
                  value={language}
                  labels={names}
                  onChange={(chosen) => chosen && setLanguage(chosen)}
                />
              )}
            </Field>
            <p className={css.buttons}>
              <button type="button" data-main aria-disabled={isBusy} onClick={() => !isBusy && print(true)}>
                {kept.link ? 'Print with this link' : 'Print with a new link'}
              </button>
              <button type="button" aria-disabled={isBusy} onClick={() => !isBusy && print(false)}>
                Print without a link
              </button>
              <Link className="button" href={`/patients/${patient.id}`} prefetch={false}>
                To the patient’s page
              </Link>
            </p>
          </div>
          <p className={form.hint}>
            The first page is for the wall at home, the paper log follows on a page of its own. A link is
            known only when it is made, so an earlier one cannot be printed again. Orders and plans stand as
            they were written.
          </p>
          {error ? (
            <p role="alert" className={form.fault}>
              {faultFrom(error).text}
            </p>
          ) : null}
        </div>
        <Sheet handOut={handOut} language={language} link={shown} onDrawn={onDrawn} />
      </main>
      <div className={css.bar}>
        <Cautions />
      </div>
    </div>
  )
}
