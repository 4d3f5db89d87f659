import type { FindingSentences, FindingText } from '@/app/messages/en/findings.ts'
import type { Finding, FindingFacts, FindingId, FindingPlace } from '@/lib/audiometry/findings.ts'

/** What was found, why and what to do, in the sentences of the page's language. */
export function findingText(finding: Finding, sentences: FindingSentences): FindingText {
  return textOf(finding.id, finding, sentences)
}

function textOf<Id extends FindingId>(
  id: Id,
  { why, where }: { readonly why: unknown; readonly where: FindingPlace },
  sentences: FindingSentences,
): FindingText {
  return sentences[id](why as Readonly<FindingFacts[Id]>, where)
}
