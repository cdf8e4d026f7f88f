import { Refusal } from '@/lib/domain/problem.ts'
import { openRoute } from '@/lib/http/open-route.ts'

/** Whatever is under /api and is none of our doors: a problem document like any other answer. */
const nothingHere = openRoute(async () => {
  throw new Refusal('not-found', 'There is no such door.')
})

export {
  nothingHere as DELETE,
  nothingHere as GET,
  nothingHere as PATCH,
  nothingHere as POST,
  nothingHere as PUT,
}
