import { lazy } from 'react'
import { untilLoaded } from '../visit/until-loaded.ts'

/*
 * The screens after the first come in scripts of their own, so that an old phone shows the first one sooner. They are
 * asked for at the first touch, and until they come; the worker fetches them sooner, with all that it keeps.
 */

const once = <T>(load: () => Promise<T>) => {
  let coming: Promise<T> | null = null
  return () => {
    coming ??= untilLoaded(load)
    return coming
  }
}

/** The questions after the first screen. */
export const fetchLater = once(() => import('./later-questions.tsx'))
/** What stands after sending. */
export const fetchAfter = once(() => import('./after-screens.ts'))

/** What few visits come to: asked for when it is needed. */
export const fetchRare = once(() => import('./rare-screens.ts'))

export const LaterQuestions = lazy(fetchLater)
