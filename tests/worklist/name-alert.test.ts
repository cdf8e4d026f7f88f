import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { alikeNames, likeBirthDates } from '../../lib/domain/alike.ts'
import { alikeOnList } from '../../lib/worklist/name-alert.ts'

const row = (patientId: string, name: string, birthDate: string) => ({ patientId, name, birthDate })
const alike = (...rows: ReturnType<typeof row>[]) => [...alikeOnList(rows)].sort()

describe('two rows of one list', () => {
  it('with a like name and birth date are both marked', () => {
    expect(
      alike(
        row('a', 'Marlow, Ada', '1960-05-17'),
        row('b', 'Ada Marlowe', '1960-05-18'),
        row('c', 'Ada Marlow', '1988-11-02'),
      ),
    ).toEqual(['a', 'b'])
  })
  it('with the same birth date alone, or the same name alone, are not', () => {
    expect(alike(row('a', 'Ada Marlow', '1960-05-17'), row('b', 'Imre Vasquez', '1960-05-17'))).toEqual([])
    expect(alike(row('a', 'Ada Marlow', '1960-05-17'), row('b', 'Ada Marlow', '1973-02-01'))).toEqual([])
  })
  it('a row is not alike itself', () => {
    expect(alike(row('a', 'Ada Marlow', '1960-05-17'))).toEqual([])
  })
})

describe('a list of any length', () => {
  const names = fc
    .array(
      fc.constantFrom('Ada', 'Adda', 'A', 'Marlow', 'Marlowe', 'Imre', 'Éva', 'Vasquez-Holm', 'O’Neill'),
      {
        minLength: 1,
        maxLength: 3,
      },
    )
    .map((parts) => parts.join(' '))
  const dates = fc.constantFrom(
    '1960-05-17',
    '1960-05-11',
    '1960-17-05',
    '1969-05-17',
    '1960-05-71',
    '1906-05-17',
  )
  const rows = fc.array(fc.tuple(names, dates), { maxLength: 12 })

  it('marks the same as if each were compared with each', () => {
    fc.assert(
      fc.property(rows, (pairs) => {
        const list = pairs.map(([name, date], i) => row(`p${i}`, name, date))
        const expected = list.filter((one) =>
          list.some(
            (other) =>
              other !== one &&
              likeBirthDates(one.birthDate).includes(other.birthDate) &&
              alikeNames(one.name, other.name),
          ),
        )
        const found = alikeOnList(list)
        for (const { patientId } of expected) expect(found).toContain(patientId)
        for (const id of found) {
          const one = list.find(({ patientId }) => patientId === id)
          expect(list.some((other) => other !== one && alikeNames(other.name, one?.name ?? ''))).toBe(true)
        }
      }),
    )
  })
})
