import { expect, test } from 'vitest'
import { isShown, paneNames, sharedPanes, shownInTurn } from '../../../app/board/frame/pane-names.ts'

const shown = (chosen: (typeof paneNames)[number], columns: 1 | 2 | 3) =>
  paneNames.filter((name) => isShown(name, chosen, columns))

test('a phone shows the chosen pane alone', () => {
  for (const name of paneNames) expect(shown(name, 1)).toEqual([name])
})

test('two columns always show hearing beside one other', () => {
  expect(shown('floor', 2)).toEqual(['hearing', 'floor'])
  expect(shown('hearing', 2)).toEqual(['hearing', 'plan'])
})

test('three columns always show hearing and floor, and another between them', () => {
  expect(shown('decisions', 3)).toEqual(['hearing', 'decisions', 'floor'])
  expect(shown('floor', 3)).toEqual(['hearing', 'plan', 'floor'])
})

test('the switch offers the panes that take turns, and marks the one in view', () => {
  expect(sharedPanes(3)).toEqual(['plan', 'steps', 'decisions'])
  expect(shownInTurn('steps', 3)).toBe('steps')
  expect(shownInTurn('floor', 3)).toBe('plan')
})
