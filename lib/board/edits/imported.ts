import type * as Y from 'yjs'
import { currentTests, enterTest, type NewTest, reinstateTest } from './hearing.ts'
import type { Pen } from './writing.ts'

/**
 * Enters tests from a file, the earliest first, without letting an older one take the place of a newer: where the board has a
 * current test of a later day than all of them, that one is current again afterwards.
 */
export function enterImportedTests(doc: Y.Doc, pen: Pen, tests: readonly NewTest[], reason: string): void {
  const inOrder = [...tests].sort((a, b) => a.performedOn.localeCompare(b.performedOn))
  const newest = new Map(inOrder.map((test) => [`${test.ear} ${test.condition}`, test]))
  const later = [...newest.values()].flatMap((test) =>
    currentTests(doc, test).filter(({ performedOn }) => performedOn > test.performedOn),
  )
  doc.transact(() => {
    for (const test of inOrder) enterTest(doc, pen, test, reason)
  })
  // An edit of its own: a test is born as a current one.
  doc.transact(() => {
    for (const test of later) reinstateTest(doc, pen, test, reason)
  })
}
