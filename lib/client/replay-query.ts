import { queryOptions } from '@tanstack/react-query'
import { Replay } from '../domain/replay.ts'
import { ask } from './ask.ts'

/** How often the progress of a replay is asked for. */
const EVERY_MS = 1_000

export const replayDoor = (id: string) => `/api/audit/replays/${encodeURIComponent(id)}`

const isOver = (replay: Replay | undefined) => replay?.state !== 'waiting' && replay?.state !== 'running'

/** A replay; asked for again and again until it is over. */
export const replayQuery = (id: string) =>
  queryOptions({
    queryKey: ['replay', id],
    queryFn: ({ signal }) => ask(replayDoor(id), Replay, { signal }),
    refetchInterval: ({ state }) => (isOver(state.data) ? false : EVERY_MS),
    refetchOnWindowFocus: false,
    staleTime: 30_000,
  })
