'use client'

import { useEffect, useRef } from 'react'
import { actionOf, type KeyAction } from './keymap.ts'

/** A place where a key is text or a choice of its own. */
const isTyping = (target: EventTarget | null) =>
  target instanceof HTMLElement &&
  (target.isContentEditable || /^(INPUT|SELECT|TEXTAREA)$/.test(target.tagName))

/** A control that the space bar or an arrow is for. */
const hasOwnKeys = (target: EventTarget | null) =>
  target instanceof Element && target.closest('button, summary, [role="button"]') !== null

type Keys = {
  on: boolean
  /** Does it, and says whether there was something to do. */
  act: (action: KeyAction) => boolean
  isFind: (target: EventTarget | null) => boolean
}

/**
 * The worklist by keyboard. Enter opens, since the focus is on the patient's link. In Find only the arrows act;
 * on a button, Space is the button's. Nothing while a dialog is open, or with a key that changes another.
 */
export function useKeys(keys: Keys) {
  const latest = useRef(keys)
  useEffect(() => {
    latest.current = keys
  })
  const { on } = keys
  useEffect(() => {
    if (!on) return
    const onKey = (event: KeyboardEvent) => {
      if (event.altKey || event.ctrlKey || event.metaKey || event.defaultPrevented) return
      if (document.querySelector('dialog[open]')) return
      const action = actionOf(event.key)
      if (action === null) return
      const isArrow = event.key.startsWith('Arrow')
      const { act, isFind } = latest.current
      if (isTyping(event.target) && !(isArrow && isFind(event.target))) return
      if ((isArrow || event.key === ' ') && hasOwnKeys(event.target)) return
      if (act(action)) event.preventDefault()
    }
    document.addEventListener('keydown', onKey)
    return () => document.removeEventListener('keydown', onKey)
  }, [on])
}
