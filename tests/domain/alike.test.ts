import { describe, expect, it } from 'vitest'
import { alikeNames, likeBirthDates, nameParts } from '../../lib/domain/alike.ts'

describe('like names', () => {
  it.each([
    ['Ana García', 'ana garcia'],
    ['García López, Ana', 'Ana Garcia Lopez'],
    ['Ana García López', 'Ana García'],
    ['Stellan Hayloft', 'Stelan Hayloft'],
    ['Stellan Hayloft', 'Hayloft Stellan'],
    ['Stellan Hayloft', 'Setllan Hayloft'],
    ['S. Hayloft', 'Stellan Hayloft'],
    ['Mei-Lin Paperlantern', 'Meilin Paperlantern'],
    ['Seán O’Dunmore', "Sean O'Dunmore"],
    ['Łucja Øster', 'Lucja Oster'],
    ['نور الهدى', 'الهدى نور'],
  ])('%s and %s', (one, other) => {
    expect(alikeNames(one, other)).toBe(true)
    expect(alikeNames(other, one)).toBe(true)
  })
  it.each([
    ['Ana García', 'Luis García'],
    ['Ana García', 'Ana Montelirio'],
    ['Bo Li', 'Bo Lu'],
    ['S. H.', 'Stellan Hayloft'],
    ['Ada Invented 1', 'Ada Invented 2'],
    ['', 'Ana García'],
  ])('not %s and %s', (one, other) => {
    expect(alikeNames(one, other)).toBe(false)
    expect(alikeNames(other, one)).toBe(false)
  })
  it('a name’s parts without accents, case and punctuation', () => {
    expect(nameParts("O'Néill-Łucka, Ana")).toEqual(['oneill', 'lucka', 'ana'])
    expect(nameParts(' — ')).toEqual([])
  })
})

describe('like birth dates', () => {
  it.each([
    ['the same', '1958-03-12'],
    ['day and month the other way round', '1958-12-03'],
    ['one digit other', '1957-03-12'],
    ['one digit other in the day', '1958-03-19'],
    ['two neighbours changed about', '1985-03-12'],
    ['one digit other in the month', '1958-01-12'],
  ])('%s', (_name, like) => expect(likeBirthDates('1958-03-12')).toContain(like))
  it('are few, are dates, and leave out what differs twice', () => {
    const like = likeBirthDates('1958-03-12')
    expect(like.length).toBeLessThan(80)
    expect(new Set(like).size).toBe(like.length)
    for (const date of like) expect(new Date(date).toISOString().slice(0, 10)).toBe(date)
    expect(like).not.toContain('1959-03-13')
    expect(likeBirthDates('1959-02-28')).not.toContain('1959-02-29')
  })
})
