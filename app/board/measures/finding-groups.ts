import type { Finding } from '@/lib/audiometry/findings.ts'

/** Findings of one rule about one ear and route, which differ by frequency only. */
export interface FindingGroup {
  readonly key: string
  readonly findings: readonly [Finding, ...Finding[]]
}

export const keyOfFinding = ({ id, where }: Finding): string => `${id} ${where.ear ?? 'both'} ${where.route}`

/** Groups in the order of their first finding, which is that of urgency. */
export function groupedFindings(findings: readonly Finding[]): readonly FindingGroup[] {
  const groups = new Map<string, [Finding, ...Finding[]]>()
  for (const finding of findings) {
    const key = keyOfFinding(finding)
    const group = groups.get(key)
    if (group === undefined) groups.set(key, [finding])
    else group.push(finding)
  }
  return [...groups].map(([key, of]) => ({ key, findings: of }))
}
