import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { Refusal } from '../../lib/domain/problem.ts'
import { forgetCounts, guardGuess, waitAfter } from '../../lib/http/limits.ts'

beforeEach(forgetCounts)
afterEach(forgetCounts)

const wrong = () => Promise.reject(new Refusal('link-not-valid', 'This link is not valid.'))
const right = () => Promise.resolve('opened')

/** A door that counts, and how long each answer waited. */
function door() {
  const waits: number[] = []
  const wait = async (ms: number) => {
    waits.push(ms)
  }
  const knock = (work: () => Promise<string>, address = 'a') =>
    guardGuess('link-tries', address, work, wait).then(
      (value) => value,
      (error: Refusal) => error.kind,
    )
  return { waits, knock }
}

describe('guesses from one address', () => {
  it('are answered at once four times, then later and later, up to the longest wait', async () => {
    const { waits, knock } = door()
    for (let i = 0; i < 4; i++) expect(await knock(wrong)).toBe('link-not-valid')
    expect(waits).toEqual([])
    for (let i = 0; i < 6; i++) await knock(wrong)
    expect(waits).toEqual([250, 500, 1000, 2000, 4000, 4000])
  })

  it('are refused after twenty, without being tried', async () => {
    const { knock } = door()
    let tried = 0
    const guess = () => {
      tried += 1
      return wrong()
    }
    const answers: string[] = []
    for (let i = 0; i < 25; i++) answers.push(await knock(guess))
    expect(answers.slice(0, 20)).toEqual(Array(20).fill('link-not-valid'))
    expect(answers.slice(20)).toEqual(Array(5).fill('too-many'))
    expect(tried).toBe(20)
    expect(await knock(right)).toBe('too-many')
    expect(await knock(right, 'another')).toBe('opened')
  })

  it('cannot slip through by coming all at once', async () => {
    const { knock } = door()
    const answers = await Promise.all(Array.from({ length: 60 }, () => knock(wrong)))
    expect(answers.filter((kind) => kind === 'link-not-valid')).toHaveLength(20)
    expect(answers.filter((kind) => kind === 'too-many')).toHaveLength(40)
  })

  it('count only where they were wrong: a right one gives its count back', async () => {
    const { waits, knock } = door()
    for (let i = 0; i < 100; i++) expect(await knock(right)).toBe('opened')
    for (let i = 0; i < 4; i++) await knock(wrong)
    expect(await knock(right)).toBe('opened')
    expect(waits).toEqual([250]) // with four wrong ones before it, the fifth waits whoever it is
    expect(await knock(wrong)).toBe('link-not-valid')
    expect(waits).toEqual([250, 250])
  })

  it('do not count where the server is in trouble', async () => {
    const { waits, knock } = door()
    const broken = () => Promise.reject(new Refusal('unavailable', 'The store is busy.'))
    for (let i = 0; i < 30; i++) expect(await knock(broken)).toBe('unavailable')
    expect(waits).toEqual([])
  })

  it('wait for a bounded time, whatever their number', () => {
    expect([1, 4, 5, 6, 9, 20, 1000].map(waitAfter)).toEqual([0, 0, 250, 500, 4000, 4000, 4000])
  })
})
