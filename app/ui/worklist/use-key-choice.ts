'use client'

import { useKept } from './use-kept.ts'

/** Whether keys without a modifier act: whoever dictates to the computer can turn them off, and it is kept. */
export const useKeyChoice = () => useKept('outflow.single-keys', true)
