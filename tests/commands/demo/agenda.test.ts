import { describe, expect, it } from 'vitest'
import { Agenda } from '../../../lib/commands/demo/agenda.ts'

describe('Agenda', () => {
  it('gives back in the order of time, and of adding where the time is one', () => {
    const agenda = new Agenda(100)
    const names = new Map<unknown, string>()
    const add = (at: number, name: string) => {
      const run = async () => {}
      names.set(run, name)
      agenda.add(at, run)
    }
    add(5, 'late')
    add(1, 'early')
    add(3, 'first of two')
    add(3, 'second of two')
    add(2, 'second')
    expect(agenda.nextAt).toBe(1)
    const order: (string | undefined)[] = []
    while (agenda.size > 0) order.push(names.get(agenda.take()?.run))
    expect(order).toEqual(['early', 'second', 'first of two', 'second of two', 'late'])
    expect(agenda.take()).toBeUndefined()
    expect(agenda.nextAt).toBeNull()
  })
})
