import { Language } from '@/lib/domain/languages.ts'
import { wordsFor } from '../words/catalogues.ts'

/** The words of one language, for a page that opened in another: `?language=es`. */
export function GET(request: Request): Response {
  const asked = Language.safeParse(new URL(request.url).searchParams.get('language'))
  return asked.success ? Response.json(wordsFor(asked.data)) : new Response(null, { status: 404 })
}
