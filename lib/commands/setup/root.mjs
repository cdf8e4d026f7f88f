import { fileURLToPath } from 'node:url'

/** The repository's folder: every command runs there, wherever it was called from. */
export const root = fileURLToPath(new URL('../../..', import.meta.url))
