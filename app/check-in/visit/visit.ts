import { makeBringing } from './bringing.ts'
import { makeOpening } from './opening.ts'
import { makeStage, type World } from './stage.ts'
import { makeWriting } from './writing.ts'

/** One visit to the check-in page, apart from what draws it. */
export function makeVisit(world: World) {
  const stage = makeStage(world)
  const bringing = makeBringing(stage)
  const opening = makeOpening(stage, bringing)
  const writing = makeWriting(stage, bringing)
  const { send, sendDanger } = bringing
  return {
    state: stage.state,
    subscribe: stage.subscribe,
    actions: {
      ...opening,
      ...writing,
      send,
      sendDanger,
      show: stage.show,
      readNews: () => stage.set({ news: null }),
    },
  }
}
