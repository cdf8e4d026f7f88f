'use client'

import { useState } from 'react'
import { z } from 'zod'
import { useSend } from '@/lib/client/use-send.ts'
import type { AdviceName } from '@/lib/domain/advice-text.ts'
import { ADVICE_MAX, type TextInLanguage, type TextVersion } from '@/lib/domain/advice-text-page.ts'
import { languages } from '@/lib/domain/languages.ts'
import { Dialog } from '../parts/dialog.tsx'
import { Field } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import { FormFoot, faultOf } from '../parts/form-foot.tsx'
import css from './settings.module.css'
import { caseLabels } from './text-labels.ts'

/** What is being done with which text. `english`: what stands beside a translation. */
export type OpenText =
  | { what: 'write'; case: AdviceName; text: TextInLanguage; english: string }
  | { what: 'approve'; case: AdviceName; text: TextInLanguage; english: string; version: TextVersion }

type Props = { open: OpenText; onClose: () => void; onDone: (says: string) => void }

export function TextDialog(props: Props) {
  const { open, onClose } = props
  const { name } = languages[open.text.language]
  const title =
    open.what === 'write'
      ? `Another version in ${name}`
      : `Approve version ${open.version.version} in ${name}`
  return (
    <Dialog title={title} about={caseLabels[open.case]} onClose={onClose}>
      {open.what === 'write' ? <Write {...props} open={open} /> : <Approve {...props} open={open} />}
    </Dialog>
  )
}

type WriteProps = Props & { open: Extract<OpenText, { what: 'write' }> }

function Write({ open, onClose, onDone }: WriteProps) {
  const { language, inForce, standard } = open.text
  const [text, setText] = useState(open.text.versions[0]?.text ?? inForce.text)
  const [isEmpty, setEmpty] = useState(false)
  const { send, isSending, fault } = useSend('/api/clinic/texts', z.unknown(), () =>
    onDone('The version is kept. Patients read it once a physician has approved it.'),
  )
  return (
    <form
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        setEmpty(text.trim() === '')
        if (text.trim() !== '' && !fault?.stored) send({ name: open.case, language, text: text.trim() })
      }}
    >
      <div className={form.form}>
        {language === 'en' ? null : (
          <div>
            <h3>English</h3>
            <p>{open.english}</p>
          </div>
        )}
        <Field
          label="Text"
          hint="Short sentences and plain words: what to do, not what it is."
          fault={isEmpty ? 'Write what patients are to read.' : faultOf(fault, 'text')}
        >
          {(wired) => (
            <textarea
              {...wired}
              rows={6}
              lang={language}
              dir={languages[language].dir}
              maxLength={ADVICE_MAX}
              value={text}
              onChange={(event) => setText(event.target.value)}
            />
          )}
        </Field>
        {text.trim() === standard ? null : (
          <p>
            <button type="button" data-quiet onClick={() => setText(standard)}>
              Begin with the standard text
            </button>
          </p>
        )}
      </div>
      <FormFoot
        main="Keep this version"
        isSending={isSending}
        fault={fault}
        shown={['text']}
        onClose={onClose}
      />
    </form>
  )
}

type ApproveProps = Props & { open: Extract<OpenText, { what: 'approve' }> }

function Approve({ open, onClose, onDone }: ApproveProps) {
  const { language, inForce } = open.text
  const isTranslation = language !== 'en'
  const [readBy, setReadBy] = useState('')
  const [isMissing, setMissing] = useState(false)
  const { send, isSending, fault } = useSend('/api/clinic/texts/approve', z.unknown(), () =>
    onDone('The version is approved: patients read it from now on.'),
  )
  const words = { lang: language, dir: languages[language].dir, className: css.words }
  return (
    <form
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        const reader = readBy.trim()
        setMissing(isTranslation && reader === '')
        if ((isTranslation && reader === '') || fault?.stored) return
        send({ id: open.version.id, ...(reader === '' ? {} : { readBy: reader }) })
      }}
    >
      <div className={form.form}>
        {isTranslation ? (
          <div>
            <h3>English</h3>
            <p>{open.english}</p>
          </div>
        ) : null}
        <div>
          <h3>Now</h3>
          <p {...words}>{inForce.text}</p>
        </div>
        <div>
          <h3>From now on</h3>
          <p {...words}>{open.version.text}</p>
        </div>
        {isTranslation ? (
          <Field
            label="Read by"
            hint="The qualified person who has read this translation, by name and qualification."
            fault={isMissing ? 'Name the person who read it.' : faultOf(fault, 'readBy')}
          >
            {(wired) => (
              <input
                {...wired}
                size={36}
                maxLength={120}
                value={readBy}
                onChange={(event) => setReadBy(event.target.value)}
              />
            )}
          </Field>
        ) : null}
      </div>
      <FormFoot main="Approve it" isSending={isSending} fault={fault} shown={['readBy']} onClose={onClose} />
    </form>
  )
}
