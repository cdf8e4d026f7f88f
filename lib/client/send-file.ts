import { ImportNews, type ImportOutcome, type ImportProgress } from '../domain/import-file.ts'
import { Problem } from '../domain/problem.ts'
import { RefusedError, UnreachableError } from './ask.ts'

/**
 * Sends a file of reports and reads the lines of the answer as they come.
 * @throws RefusedError with the problem document, UnreachableError where the answer does not come to its end
 */
export async function sendFile(
  file: File,
  dryRun: boolean,
  onProgress: (progress: ImportProgress) => void,
): Promise<ImportOutcome> {
  const asked = new URLSearchParams({ name: file.name, dry: dryRun ? '1' : '0' })
  const response = await fetch(`/api/imports?${asked}`, {
    method: 'POST',
    headers: { 'Content-Type': 'text/csv' },
    body: file,
  }).catch(() => {
    throw new UnreachableError()
  })
  if (!response.ok || !response.body) {
    const problem = Problem.safeParse(await response.json().catch(() => null))
    if (!problem.success) throw new UnreachableError()
    throw new RefusedError(problem.data, response.status)
  }
  for await (const line of linesOf(response.body)) {
    const news = ImportNews.parse(JSON.parse(line))
    if (news.news === 'outcome') return news.outcome
    if (news.news === 'problem') throw new RefusedError(news.problem, news.problem.status)
    const { news: _, ...progress } = news
    onProgress(progress)
  }
  throw new UnreachableError()
}

async function* linesOf(body: ReadableStream<Uint8Array>): AsyncGenerator<string> {
  const reader = body
    .pipeThrough(new TextDecoderStream() as ReadableWritablePair<string, Uint8Array>)
    .getReader()
  let rest = ''
  for (;;) {
    const { done, value } = await reader.read().catch(() => {
      throw new UnreachableError()
    })
    if (done) return
    const lines = (rest + value).split('\n')
    rest = lines.pop() ?? ''
    yield* lines.filter(Boolean)
  }
}
