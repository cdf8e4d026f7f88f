import { expect, it } from 'vitest'
import { measure } from '../../../lib/commands/bench/measure.ts'

it('gives the named figures of one run, each with a value, a unit and what was aimed at', {
  timeout: 60_000,
}, async () => {
  const silent = { at: () => {}, end: () => {} }
  const figures = await measure(
    { rounds: 1, patients: 5, warmUpMs: 1, roundMs: 1 },
    { panel: silent, turns: silent },
  )
  const names = figures.map((figure) => figure.name)
  for (const name of ['assess-vs-sum', 'assess-vs-general-engine', 'assess-growth', 'panel-5'])
    expect(names).toContain(name)
  for (const figure of figures) {
    expect(figure.value, figure.name).toBeGreaterThan(0)
    expect(figure.unit).not.toBe('')
    expect(figure.aim === null, figure.name).toBe(figure.holds === null)
  }
})
