import type { Escalation, EscalationStep } from '@/lib/domain/escalation.ts'
import { urgencyLabels } from '@/lib/domain/labels.ts'
import { dayAndTime } from '@/lib/domain/local-time.ts'
import type { PatientPage } from '@/lib/domain/patient-page.ts'
import css from './patient.module.css'

/** What could not wait outside opening hours, and who was told of it: a line a step, the newest escalation first. */
export function EscalationsList({ page }: { page: PatientPage }) {
  const zone = page.clinic.timeZone
  if (page.escalations.length === 0) return null
  return (
    <section aria-labelledby="after-hours" className={css.section}>
      <h2 id="after-hours">After hours</h2>
      <ul className={css.list}>
        {page.escalations.map((one) => (
          <li key={one.id}>
            <h3>
              {dayAndTime(one.openedAt, zone)} · {one.about}
              <span className={css.plain}> ({urgencyLabels[one.urgency].toLowerCase()})</span>
            </h3>
            <ol className={css.list}>
              {linesOf(one).map(({ key, at, text }) => (
                <li key={key}>
                  {dayAndTime(at, zone)} {text}
                </li>
              ))}
            </ol>
            {one.endedAt === null ? <p>It stands.</p> : null}
          </li>
        ))}
      </ul>
    </section>
  )
}

const ways = { email: 'e-mail', gateway: 'text message' } as const

/** Several ways at one time are one line. */
function linesOf({ steps }: Escalation): { key: string; at: string; text: string }[] {
  const lines: { key: string; at: string; text: string }[] = []
  steps.forEach((step, i) => {
    const before = steps[i - 1]
    const isSame =
      step.kind === 'told' && before?.kind === 'told' && before.at === step.at && before.by === step.by
    const last = lines.at(-1)
    if (isSame && last && step.channel) last.text += ` and ${ways[step.channel]}`
    else lines.push({ key: `${step.at} ${i}`, at: step.at, text: textOf(step) })
  })
  return lines
}

function textOf({ kind, by, channel, why }: EscalationStep): string {
  const texts: Readonly<Record<EscalationStep['kind'], string>> = {
    opened: `opened: ${why ?? ''}`,
    raised: `more urgent: ${why ?? ''}`,
    news: `something further: ${why ?? ''}`,
    told: `told ${by ?? 'unknown'} by ${channel ? ways[channel] : 'no way'}`,
    nobody: why ?? 'Nobody is on call.',
    'no-way': why ?? `There is no way to tell ${by ?? 'anybody'}.`,
    'passed-on': `passed on to ${by ?? 'unknown'}: ${why ?? ''}`,
    looked: `${by ?? 'unknown'} opened the link`,
    'have-it': `${by ?? 'unknown'} said ‘I have it’`,
    declined: `${by ?? 'unknown'} cannot`,
    ended: `over: ${why ?? ''}`,
  }
  return texts[kind]
}
