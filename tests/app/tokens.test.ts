import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'

const css = readFileSync(new URL('../../app/tokens.css', import.meta.url), 'utf8')

const block = (start: RegExp): Map<string, string> => {
  const from = css.search(start)
  const text = css.slice(from, css.indexOf('}', from))
  return new Map(
    [...text.matchAll(/--([\w-]+):\s*(#[0-9a-f]{6})/g)].map(([, name = '', value = '']) => [name, value]),
  )
}
const themes = {
  light: block(/:root \{/),
  dark: block(/prefers-color-scheme: dark/),
  print: block(/@media print/),
}

/** Relative luminance and contrast ratio as WCAG 2.2 defines them. */
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4
  })
  return 0.2126 * r + 0.7152 * g + 0.0722 * b
}
function contrast(one: string, other: string): number {
  const [high = 0, low = 0] = [luminance(one), luminance(other)].sort((a, b) => b - a)
  return (high + 0.05) / (low + 0.05)
}

const grounds = ['ground', 'sheet', 'chosen']
const text = ['ink', 'ink-2', 'link', 'urgency-ink', 'owed', 'output']
const graphics = [
  'edge',
  'focus',
  'urgency-4',
  'urgency-3',
  'urgency-edge',
  'output',
  'output-edge',
  'band-edge',
]
const pairs = (names: string[], on: string[]) =>
  names.flatMap((name) => on.map((ground) => [name, ground] as const))

describe.each(Object.entries(themes))('tokens in %s', (theme, tokens) => {
  const value = (name: string) =>
    tokens.get(name) ?? (theme === 'print' ? themes.light.get(name) : undefined) ?? 'missing'

  it.each(pairs(text, grounds))('text: %s on %s holds 4.5:1', (name, ground) => {
    expect(contrast(value(name), value(ground))).toBeGreaterThanOrEqual(4.5)
  })
  it.each(pairs(graphics, grounds))('graphic: %s on %s holds 3:1', (name, ground) => {
    expect(contrast(value(name), value(ground))).toBeGreaterThanOrEqual(3)
  })
  it.each([
    ['inverse', 'ink'],
    ['inverse', 'link'],
  ])('text of a main button: %s on %s holds 4.5:1', (name, ground) => {
    expect(contrast(value(name), value(ground))).toBeGreaterThanOrEqual(4.5)
  })
  it('the last day is told from the days before it, and both from the usual band', () => {
    expect(contrast(value('output'), value('output-before'))).toBeGreaterThanOrEqual(1.5)
    expect(contrast(value('output-edge'), value('band'))).toBeGreaterThanOrEqual(3)
  })
  it('the four strengths of urgency are in order', () => {
    const from = [1, 2, 3, 4].map((n) => contrast(value(`urgency-${n}`), value('sheet')))
    expect([...from].sort((a, b) => a - b)).toEqual(from)
  })
})

it('light and dark name the same colours', () => {
  expect([...themes.dark.keys()].sort()).toEqual([...themes.light.keys()].sort())
})
