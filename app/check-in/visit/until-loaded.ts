const AGAIN_MS = 3000

/** A script that comes when it is needed is asked for until it comes: a weak signal must not end a report. */
export async function untilLoaded<T>(load: () => Promise<T>): Promise<T> {
  for (;;) {
    try {
      return await load()
    } catch {
      await new Promise((resolve) => setTimeout(resolve, AGAIN_MS))
    }
  }
}
