import Link from 'next/link'
import { may, type Role } from '@/lib/domain/staff.ts'
import css from './settings.module.css'

const pages = [
  { href: '/settings', name: 'Clinic', action: 'edit-clinic' },
  { href: '/settings/texts', name: 'Texts for patients', action: 'edit-clinic' },
  { href: '/settings/questions', name: 'Questions of the call', action: 'edit-clinic' },
  { href: '/settings/orders', name: 'Usual orders', action: 'edit-clinic' },
  { href: '/settings/no-answer', name: 'No answer', action: 'edit-clinic' },
  { href: '/settings/after-hours', name: 'After hours', action: 'edit-rota' },
  { href: '/settings/rota', name: 'On-call rota', action: 'edit-rota' },
] as const

/** The pages of the room of settings that this person may enter. */
export function SettingsNav({ role, here }: { role: Role; here: (typeof pages)[number]['href'] }) {
  return (
    <nav aria-label="Settings" className={css.nav}>
      {pages
        .filter(({ action }) => may(role, action))
        .map(({ href, name }) => (
          <Link key={href} href={href} aria-current={href === here ? 'page' : undefined}>
            {name}
          </Link>
        ))}
    </nav>
  )
}
