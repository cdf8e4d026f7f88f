'use client'

import { useState } from 'react'
import { z } from 'zod'
import { FIGURES_DOOR } from '@/lib/client/figures-queries.ts'
import { useSend } from '@/lib/client/use-send.ts'
import type { FigureName, ShownFigure } from '@/lib/domain/figures.ts'
import { LocalDate } from '@/lib/domain/instant.ts'
import { Dialog } from '../../parts/dialog.tsx'
import { Field } from '../../parts/field.tsx'
import form from '../../parts/form.module.css'
import { FormFoot, faultOf } from '../../parts/form-foot.tsx'
import { Select } from '../../parts/select.tsx'
import { TextField } from '../../parts/text-field.tsx'

type Props = { figures: readonly ShownFigure[]; onClose: () => void; onDone: (week: string) => void }

const Named = z.strictObject({ from: LocalDate })

/** Names the figure that the clinic will judge itself by, before its number is known. */
export function NameDialog({ figures, onClose, onDone }: Props) {
  const [figure, setFigure] = useState<FigureName | ''>('')
  const [why, setWhy] = useState('')
  const [isTried, setTried] = useState(false)
  const { send, isSending, fault } = useSend(`${FIGURES_DOOR}/primary`, Named, ({ from }) => onDone(from))
  const labels = Object.fromEntries(figures.map(({ name, label }) => [name, label])) as Record<
    FigureName,
    string
  >
  return (
    <Dialog
      title="Name the figure to be judged by"
      about="It holds for the weeks that begin after today. What has been seen already is not judged by it."
      onClose={onClose}
    >
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault()
          setTried(true)
          if (figure !== '' && why.trim() !== '' && !fault?.stored) send({ figure, why: why.trim() })
        }}
      >
        <div className={form.form}>
          <Field label="Figure" fault={isTried && figure === '' ? 'Choose one.' : faultOf(fault, 'figure')}>
            {(wired) => (
              <Select {...wired} value={figure} onChange={setFigure} labels={labels} empty="choose" />
            )}
          </Field>
          <TextField
            label="Why this one"
            size={50}
            maxLength={500}
            value={why}
            onChange={setWhy}
            fault={isTried && why.trim() === '' ? 'Say why; it is kept.' : faultOf(fault, 'why')}
          />
        </div>
        <FormFoot
          main="Name it"
          isSending={isSending}
          fault={fault}
          shown={['figure', 'why']}
          onClose={onClose}
        />
      </form>
    </Dialog>
  )
}
