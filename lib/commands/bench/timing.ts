import { processorMs } from './processor-time.ts'

export interface Contestant {
  readonly name: string
  /** Runs the work once. */
  run(): unknown
}

/** Milliseconds of processor time of one run of each contestant, one entry a round. */
export type Times = ReadonlyMap<string, readonly number[]>

export interface Turns {
  readonly rounds: number
  /** Processor time that each contestant has before it is measured, and about what it has in a round. */
  readonly warmUpMs: number
  readonly roundMs: number
}

async function timeOf(contestant: Contestant, runs: number): Promise<number> {
  const start = processorMs()
  for (let i = 0; i < runs; i++) {
    const answer = contestant.run()
    if (answer instanceof Promise) await answer
  }
  return processorMs() - start
}

/** After a warm-up, takes turns: in each round every contestant runs for about the same while, so that noise falls on all. */
export async function takeTurns(
  contestants: readonly Contestant[],
  { rounds, warmUpMs, roundMs }: Turns,
  tell: (done: number) => void,
): Promise<Times> {
  const runs = new Map<string, number>()
  for (const contestant of contestants) {
    let spent = 0
    let perRun = 0
    for (let count = 1; spent < warmUpMs; count *= 2) {
      const time = await timeOf(contestant, count)
      spent += time
      perRun = time / count
    }
    runs.set(contestant.name, Math.max(1, Math.round(roundMs / perRun)))
  }
  const times = new Map<string, number[]>(contestants.map(({ name }) => [name, []]))
  for (let round = 0; round < rounds; round++) {
    for (const contestant of contestants) {
      const count = runs.get(contestant.name) ?? 1
      times.get(contestant.name)?.push((await timeOf(contestant, count)) / count)
    }
    tell(round + 1)
  }
  return times
}

/** Ratio of two contestants: median over the rounds, with the smallest and the largest. */
export function ratioOf(
  times: Times,
  above: string,
  below: string,
): { value: number; low: number; high: number } {
  const under = times.get(below) ?? []
  const ratios = (times.get(above) ?? [])
    .map((time, round) => time / (under[round] ?? Number.NaN))
    .sort((a, b) => a - b)
  return { value: middle(ratios), low: ratios[0] ?? Number.NaN, high: ratios.at(-1) ?? Number.NaN }
}

export const millisecondsOf = (times: Times, name: string) =>
  middle([...(times.get(name) ?? [])].sort((a, b) => a - b))

const middle = (sorted: readonly number[]) => {
  const half = sorted.length / 2
  return ((sorted[Math.ceil(half) - 1] ?? Number.NaN) + (sorted[Math.floor(half)] ?? Number.NaN)) / 2
}
