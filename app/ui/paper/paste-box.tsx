'use client'

import { Field } from '../parts/field.tsx'
import css from './paper.module.css'

type Props = { text: string; onText: (text: string) => void; onLay: (text: string) => void }

/** Where rows from a spreadsheet are pasted. They are laid at once; what cannot be stays here, word for word. */
export function PasteBox({ text, onText, onLay }: Props) {
  return (
    <div className={css.paste}>
      <Field
        label="Paste from a spreadsheet"
        hint="With or without a heading, by tab or comma. Without one, in the order of the columns below."
      >
        {(wired) => (
          <textarea
            {...wired}
            rows={2}
            spellCheck={false}
            value={text}
            onChange={(event) => onText(event.target.value)}
            onPaste={(event) => {
              const given = event.clipboardData.getData('text/plain')
              if (text.trim() !== '' || given.trim() === '') return
              event.preventDefault()
              onText(given)
              onLay(given)
            }}
          />
        )}
      </Field>
      <button type="button" disabled={text.trim() === ''} onClick={() => onLay(text)}>
        Lay into the sheet
      </button>
    </div>
  )
}
