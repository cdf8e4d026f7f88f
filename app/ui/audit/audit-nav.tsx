import Link from 'next/link'
import css from './audit-nav.module.css'

const parts = [
  { part: 'week', href: '/audit', name: 'The week' },
  { part: 'figures', href: '/audit/figures', name: 'Figures' },
  { part: 'outcomes', href: '/audit/outcomes', name: 'What became of them' },
  { part: 'rules', href: '/audit/rules', name: 'Rule sets' },
] as const
export type AuditPart = (typeof parts)[number]['part']

/** The parts of the audit. */
export function AuditNav({ part }: { part: AuditPart }) {
  return (
    <nav aria-label="Audit" className={css.nav}>
      {parts.map(({ part: one, href, name }) => (
        <Link key={href} href={href} prefetch={false} aria-current={one === part ? 'page' : undefined}>
          {name}
        </Link>
      ))}
    </nav>
  )
}
