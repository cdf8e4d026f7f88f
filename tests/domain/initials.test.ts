import { expect, it } from 'vitest'
import { initialsOf } from '../../lib/domain/initials.ts'

it.each([
  ['R. Okafor (invented)', 'RO'],
  ['Nora Invented', 'NI'],
  ['Élise van der Berg', 'ÉVD'],
  ['Rosa Okafor-Lind', 'ROL'],
  ['Nurse with four names', 'NWF'],
  ['', ''],
])('of %s: %s', (name, initials) => expect(initialsOf(name)).toBe(initials))
