import { Button } from '@/app/components/button.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'

/** Saves the current tests as a table that the import reads back. */
export function ExportButton({ tests }: { tests: readonly HearingTest[] }) {
  const { hearing } = useMessages()
  const current = tests.filter(({ state }) => state === 'current')
  if (current.length === 0) return null
  return (
    <Button tone="quiet" onClick={() => saveAsCsv(current)}>
      {hearing.export}
    </Button>
  )
}

async function saveAsCsv(tests: readonly HearingTest[]): Promise<void> {
  const { writeAudiogramCsv } = await import('@/lib/interchange/audiogram-csv.ts')
  save(writeAudiogramCsv(tests))
}

function save(text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: 'text/csv;charset=utf-8' }))
  const link = document.createElement('a')
  link.href = address
  link.download = 'audiograms.csv'
  link.click()
  URL.revokeObjectURL(address)
}
