import type { NewDischarge } from '../../domain/discharge.ts'
import { localDate } from '../../domain/local-time.ts'

type Waiting = Omit<NewDischarge, 'dischargedOn'> & { days: number }

/** Who went home so many days before the scenario's end and is not enrolled. All invented; the first is alike a patient. */
const PEOPLE: readonly Waiting[] = [
  {
    recordNumber: 'LF-042901',
    name: 'Quilfeather, Ansel',
    birthDate: '1955-12-08',
    phone: '+1 303 555 0193',
    drainKind: 'nephrostomy',
    note: 'Left kidney; lives with his wife.',
    days: 6,
  },
  {
    recordNumber: 'LF-042917',
    name: 'Rosamund Tidewell',
    birthDate: '1949-02-26',
    phone: null,
    drainKind: 'biliary',
    note: 'Phone number was not written down; ask ward 3.',
    days: 4,
  },
  {
    recordNumber: 'LF-042924',
    name: 'Eduardo Valdeneblina',
    birthDate: '1971-09-14',
    phone: '+1 303 555 0195',
    drainKind: 'collection',
    note: 'Speaks Spanish.',
    days: 3,
  },
  {
    recordNumber: 'LF-042938',
    name: 'Henrike Sandvogel',
    birthDate: '1983-06-30',
    phone: '+1 303 555 0196',
    drainKind: 'bulb',
    note: null,
    days: 1,
  },
  {
    recordNumber: 'LF-042945',
    name: 'Amadou Rivercrest',
    birthDate: '1966-11-05',
    phone: '+1 303 555 0197',
    drainKind: null,
    note: 'From the surgical ward; which drain is to be asked.',
    days: 0,
  },
]

/** The list of discharges at the scenario's end, the oldest first. */
export const demoDischarges = (endsAt: string, zone: string): (NewDischarge & { at: string })[] =>
  PEOPLE.map(({ days, ...person }) => {
    const ms = Date.parse(endsAt) - days * 86_400_000 - 3 * 3_600_000
    return { ...person, dischargedOn: localDate(ms, zone), at: new Date(ms).toISOString() }
  })
