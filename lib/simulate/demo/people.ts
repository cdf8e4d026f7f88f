import type { Profile } from '../../domain/profile.ts'
import { profileOf } from './profiles.ts'

/** The people of the demo scenario. All of them, their numbers and their birth dates are invented. */
export type Person = {
  readonly name: string
  readonly birthDate: string
  readonly recordNumber: string
  readonly phone: string
  readonly language: string | null
  readonly interpreter: boolean
  readonly profile: Profile
}

const NAMES = [
  'Abeni Okonjo-Larch',
  'Ansel Quillfeather',
  'Beatriz Montelirio',
  'Bao Thanh Riverstone',
  'Cedric Applewhistle',
  'Chandra Velvetwala',
  'Dagny Frostholm',
  'Dimitri Lanternov',
  'Eleni Saltmarsh',
  'Emeka Brightwater',
  'Farah Silverdune',
  'Fintan Mossgrove',
  'Gudrun Kettleberg',
  'Haruki Inkstone',
  'Hester Larkworthy',
  'Ignacio Piedraluna',
  'Imani Copperfield-Osei',
  'Ivo Nightingalov',
  'Jasmeet Honeywell-Gill',
  'Joaquín Vientosuave',
  'Kamala Threadgold',
  'Kofi Drumlin',
  'Leilani Palmgrove',
  'Liesl Uhrwerk',
  'Lorcan Fernsby',
  'Magda Wierzbowa',
  'Malik Starling-Haddad',
  'Mei-Lin Paperlantern',
  'Milo Thistlewood',
  'Nadia Amberski',
  'Nils Snowdrift',
  'Noor Pomegranate',
  'Obadiah Fencepost',
  'Oona Heatherlake',
  'Paloma Tejadoazul',
  'Pavel Birchenko',
  'Priya Lotuswala',
  'Quentin Marrowby',
  'Rafael Cielobravo',
  'Rosalind Teacup',
  'Saoirse Driftwood',
  'Sefa Coralreef',
  'Siddharth Moonbeam',
  'Sigrid Oldfjord',
  'Soo-ah Persimmon',
  'Stellan Hayloft',
  'Tadeusz Zegarmistrz',
  'Tamsin Gooseberry',
  'Temperance Oakley-Vane',
  'Thandi Sunbird',
  'Tobias Kupferkessel',
  'Ulla Wintergreen',
  'Uzoma Palmwine',
  'Vikram Saffronwala',
  'Violeta Campoclaro',
  'Wendell Cranesfoot',
  'Xochitl Floralba',
  'Yusuf Olivegrove',
  'Zelda Buttonhook',
  'Zoltan Plumhill',
] as const

const SPEAK: Readonly<Record<string, string>> = {
  'Bao Thanh Riverstone': 'Vietnamese',
  'Ignacio Piedraluna': 'Spanish',
  'Magda Wierzbowa': 'Polish',
  'Xochitl Floralba': 'Spanish',
}

/** The n-th invented person, with a number of the range that is kept free for fiction. */
export function person(index: number): Person {
  const name = NAMES[index]
  if (!name) throw new RangeError(`there are ${NAMES.length} invented people; asked for number ${index}`)
  const year = 1938 + ((index * 17) % 60)
  const two = (n: number) => String(n).padStart(2, '0')
  const phone = `+1 303 555 01${two(index)}`
  const language = SPEAK[name] ?? null
  return {
    name,
    birthDate: `${year}-${two(1 + ((index * 7) % 12))}-${two(1 + ((index * 11) % 28))}`,
    recordNumber: `LF-${String(40_100 + index * 37).padStart(6, '0')}`,
    phone,
    language,
    interpreter: name in SPEAK,
    profile: profileOf(index, { name, phone, language }),
  }
}
export const PEOPLE = NAMES.length
