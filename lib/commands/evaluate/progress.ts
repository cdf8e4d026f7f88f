export type Progress = { at(done: number): void; end(): void }

const WIDTH = 30

/** A bar on standard error: one line that is drawn over on a terminal, else a line for every tenth. */
export function progressBar(label: string, total: number): Progress {
  const { stderr } = process
  let shown = -1
  return {
    at(done) {
      const share = total === 0 ? 1 : done / total
      const step = Math.floor(share * (stderr.isTTY ? 100 : 10))
      if (step === shown) return
      shown = step
      const filled = Math.round(share * WIDTH)
      const line = `${label} [${'#'.repeat(filled)}${'.'.repeat(WIDTH - filled)}] ${done}/${total}`
      stderr.write(stderr.isTTY ? `\r${line}` : `${line}\n`)
    },
    end() {
      if (stderr.isTTY) stderr.write('\n')
    },
  }
}
