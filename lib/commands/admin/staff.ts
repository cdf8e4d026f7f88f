import { createStaff, disableAccount, linkToSetPassword, listStaff, setRole } from '../../access/index.ts'
import { roleLabels } from '../../domain/labels.ts'
import { Refusal } from '../../domain/problem.ts'
import { Role } from '../../domain/staff.ts'
import { byCommandLine, type Command, done } from './command.ts'
import { theClinic } from './the-clinic.ts'

const ROLES = Role.options.join('|')

function roleOf(text: string | undefined): Role {
  const role = Role.safeParse(text)
  if (role.success) return role.data
  throw new Refusal('invalid-input', `--role ${text}: accepted: ${Role.options.join(', ')}`)
}

const create: Command = {
  does: 'makes an account, and prints the link with which its owner sets a password',
  needs: { email: 'ADDRESS', name: 'NAME', role: ROLES },
  takes: { clinic: 'ID' },
  run: async ({ email = '', name = '', role, clinic }) => {
    const staff = await createStaff(
      { clinicId: await theClinic(clinic), name, email, role: roleOf(role), password: null },
      byCommandLine,
    )
    return done(
      `${staff.name} <${staff.email}> has an account as ${roleLabels[staff.role]}.`,
      ...(await linkLines(staff.email)),
    )
  },
}

const reset: Command = {
  does: 'prints a link with which somebody sets a new password',
  needs: { email: 'ADDRESS' },
  takes: {},
  run: async ({ email = '' }) => done(...(await linkLines(email))),
}

const linkLines = async (email: string) => [
  'Hand them this link; it holds an hour and works once:',
  `  ${await linkToSetPassword(email)}`,
]

const role: Command = {
  does: 'changes what somebody may do; their sessions end',
  needs: { email: 'ADDRESS', role: ROLES },
  takes: {},
  run: async ({ email = '', role: wanted }) => {
    const staff = await setRole(email, roleOf(wanted), byCommandLine)
    return done(`${staff.name} is now ${roleLabels[staff.role]}.`)
  },
}

const disable: Command = {
  does: 'ends an account and its sessions at once',
  needs: { email: 'ADDRESS' },
  takes: {},
  run: async ({ email = '' }) =>
    done(`${(await disableAccount(email, byCommandLine)).name} can no longer sign in.`),
}

const list: Command = {
  does: 'lists who has an account',
  needs: {},
  takes: {},
  run: async () => {
    const { rows, unreadable } = await listStaff()
    const lines = rows.map(({ clinicId, email, role: their, name, disabledAt }) =>
      [clinicId, email, their, name, disabledAt ? 'disabled' : ''].join('\t').trimEnd(),
    )
    return {
      lines: [...lines, ...unreadable.map(({ id, why }) => `cannot be read: ${id}: ${why}`)],
      ok: unreadable.length === 0,
    }
  },
}

export const staffCommands = {
  'create-staff': create,
  'reset-password': reset,
  'set-role': role,
  'disable-staff': disable,
  'list-staff': list,
}
