import { expect, it } from 'vitest'
import { backToList, noteList, noteOpened, noteReturned, rowsToReturnTo } from '../../lib/client/left-list.ts'

it('the list is found again as it was left: its address, its row, else the nearest', () => {
  expect([backToList(), rowsToReturnTo()]).toEqual(['/', []])
  noteList('only=mine', ['a', 'b', 'c', 'd'])
  noteOpened('c')
  expect(backToList()).toBe('/?only=mine')
  expect(rowsToReturnTo()).toEqual(['c', 'd', 'b', 'a'])
  noteOpened('elsewhere')
  expect(rowsToReturnTo()).toEqual(['elsewhere'])
  noteReturned()
  expect(rowsToReturnTo()).toEqual([])
})
