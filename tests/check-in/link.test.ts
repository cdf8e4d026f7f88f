import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { Answer } from '../../app/check-in/keep/doors.ts'
import { personalLink } from '../../app/check-in/visit/link.ts'

const address = { hash: '', pathname: '/check-in/larkfield', search: '' }
const shelf = new Map<string, string>()
const replaced: string[] = []

beforeEach(() => {
  shelf.clear()
  replaced.length = 0
  vi.stubGlobal('window', {
    location: address,
    history: {
      replaceState: (_state: unknown, _title: string, to: string) => {
        replaced.push(to)
        address.hash = ''
      },
    },
  })
  vi.stubGlobal('sessionStorage', {
    getItem: (name: string) => shelf.get(name) ?? null,
    setItem: (name: string, value: string) => void shelf.set(name, value),
    removeItem: (name: string) => void shelf.delete(name),
  })
})
afterEach(() => vi.unstubAllGlobals())

const ok: Answer<unknown> = { kind: 'ok', value: null }
const answers = (...given: Answer<unknown>['kind'][]) => {
  const asked: string[] = []
  return {
    asked,
    ask: async (token: string): Promise<Answer<unknown>> => {
      asked.push(token)
      const kind = given.shift() ?? 'ok'
      return kind === 'ok'
        ? ok
        : kind === 'refused'
          ? { kind, problem: { type: 't', title: 'No', status: 400 } }
          : { kind }
    },
  }
}

describe('the link that a page was opened with', () => {
  it('leaves the address at once and is traded once', async () => {
    address.hash = '#secret'
    const { asked, ask } = answers()
    const link = personalLink(ask, async () => ok)
    expect(await link.take()).toBe(true)
    expect(replaced).toEqual(['/check-in/larkfield'])
    expect(link.hash()).toBe('2bb80d537b1da3e38bd30361aa855686bde0eacd7162fef6a25fe97bf527a25b')
    expect(await Promise.all([link.open(), link.open()])).toEqual(['ok', 'ok'])
    expect(await link.open()).toBe('ok')
    expect(asked).toEqual(['secret'])
    expect(shelf.size, 'nothing of it is left in the tab').toBe(0)
  })

  it('outlives a reload while the clinic cannot be reached', async () => {
    address.hash = '#secret'
    const first = personalLink(answers('unreachable').ask, async () => ok)
    await first.take()
    expect(await first.open()).toBe('unreachable')
    const { asked, ask } = answers()
    const reloaded = personalLink(ask, async () => ok)
    expect(await reloaded.take()).toBe(true)
    expect(await reloaded.open()).toBe('ok')
    expect(asked).toEqual(['secret'])
    expect(await personalLink(ask, async () => ok).take(), 'and no longer').toBe(false)
  })

  it('that is over is renewed by the code that fits', async () => {
    address.hash = '#secret'
    const codes: string[] = []
    const link = personalLink(answers('link-ended').ask, async (token, code) => {
      codes.push(`${token} ${code}`)
      return code === '12345678' ? ok : { kind: 'link-ended' }
    })
    await link.take()
    expect(await link.open()).toBe('link-ended')
    expect(link.canRenew()).toBe(true)
    expect(await link.renew('0000')).toBe('link-ended')
    expect(await link.renew('12345678')).toBe('ok')
    expect(codes).toEqual(['secret 0000', 'secret 12345678'])
    expect(await personalLink(answers().ask, async () => ok).renew('1'), 'without a link there is none').toBe(
      'link-ended',
    )
  })
})
