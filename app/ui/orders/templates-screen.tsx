'use client'

import { useState } from 'react'
import type { Instant } from '@/lib/domain/instant.ts'
import { kindLabels } from '@/lib/domain/labels.ts'
import type { KindTemplate } from '@/lib/domain/order-template.ts'
import type { DrainKind } from '@/lib/domain/words.ts'
import { Choice, Group } from '../parts/field.tsx'
import form from '../parts/form.module.css'
import { TemplateForm } from './template-form.tsx'
import css from './templates.module.css'
import { Versions } from './versions.tsx'

type Props = { templates: readonly KindTemplate[]; asOf: Instant; zone: string }

/** What the clinic usually orders, kind by kind. It is where enrolment begins; nobody's orders change by it. */
export function TemplatesScreen({ templates, asOf, zone }: Props) {
  const [kind, setKind] = useState<DrainKind>('nephrostomy')
  const [says, setSays] = useState('')
  const template = templates.find((one) => one.kind === kind)
  if (!template) return null
  const version = template.versions[0]?.version ?? 0
  return (
    <div className={css.screen}>
      <div>
        <h1>Usual orders</h1>
        <p className={form.hint}>
          What enrolment fills in for a kind, to be changed there for the one patient. Orders in force stay as
          they are.
        </p>
      </div>
      <Group legend="Kind of drain">
        {templates.map(({ kind: one, versions }) => (
          <Choice
            key={one}
            type="radio"
            name="kind"
            checked={one === kind}
            onChange={() => {
              setKind(one)
              setSays('')
            }}
          >
            {kindLabels[one]}
            {versions.length === 0 ? ' (standard)' : ''}
          </Choice>
        ))}
      </Group>
      <section aria-labelledby="kind" className={css.part}>
        <h2 id="kind">{kindLabels[kind]}</h2>
        <p>
          {version === 0
            ? 'Standard: the clinic has set none of its own. Below each value stands where it comes from.'
            : `Version ${version} of the clinic.`}
        </p>
        <TemplateForm key={`${kind} ${version}`} template={template} onDone={setSays} />
        <p role="status">{says}</p>
      </section>
      <Versions template={template} asOf={asOf} zone={zone} />
    </div>
  )
}
