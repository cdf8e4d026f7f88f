import Link from 'next/link'
import { may, type Role } from '@/lib/domain/staff.ts'
import css from './audit-nav.module.css'

const parts = [
  { part: 'week', href: '/audit', name: 'The week', action: 'audit' },
  { part: 'figures', href: '/audit/figures', name: 'Figures', action: 'audit' },
  { part: 'outcomes', href: '/audit/outcomes', name: 'What became of them', action: 'record-outside-event' },
  { part: 'rules', href: '/audit/rules', name: 'Rule sets', action: 'audit' },
] as const
export type AuditPart = (typeof parts)[number]['part']

/** The parts of the audit; with a role those that it may enter. */
export function AuditNav({ part, role }: { part: AuditPart; role?: Role }) {
  const own = parts.filter(({ action }) => role === undefined || may(role, action))
  return (
    <nav aria-label="Audit" className={css.nav}>
      {own.map(({ part: one, href, name }) => (
        <Link key={href} href={href} prefetch={false} aria-current={one === part ? 'page' : undefined}>
          {name}
        </Link>
      ))}
    </nav>
  )
}
