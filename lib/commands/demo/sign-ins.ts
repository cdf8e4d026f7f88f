import type { NewStaff } from '../../access/index.ts'
import type { Role } from '../../domain/staff.ts'

/** Who works at the invented clinic. The passwords open nothing but a demo scenario. */
export type SignIn = {
  readonly role: Role
  readonly name: string
  readonly email: string
  readonly password: string
}

const at = (role: Role, name: string, mailbox: string, password: string): SignIn => ({
  role,
  name,
  email: `${mailbox}@larkfield.example`,
  password,
})

export const SIGN_INS = {
  nurse: at('nurse', 'R. Okafor (invented)', 'okafor', 'velvet-anchor-plum-41'),
  secondNurse: at('nurse', 'J. Sund (invented)', 'sund', 'copper-lantern-fig-27'),
  chargeNurse: at('charge-nurse', 'M. Aldana (invented)', 'aldana', 'quiet-harbour-oat-63'),
  coordinator: at('coordinator', 'P. Nakagawa (invented)', 'nakagawa', 'amber-window-reed-58'),
  physician: at('physician', 'Dr. T. Lindqvist (invented)', 'lindqvist', 'marble-orchard-fen-36'),
  secondPhysician: at('physician', 'Dr. E. Vauquelin (invented)', 'vauquelin', 'hollow-spruce-tin-82'),
  administrator: at('administrator', 'C. Whitlock (invented)', 'whitlock', 'paper-river-thyme-74'),
} as const

export const newStaff = (clinicId: string, { role, name, email, password }: SignIn): NewStaff => ({
  clinicId,
  role,
  name,
  email,
  password,
})
