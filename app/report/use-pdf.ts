'use client'

import { useEffect } from 'react'
import { useBoardStatus } from '@/app/board/board-context.tsx'
import { useMessages } from '@/app/messages/for-report.ts'
import type { PdfContent, ReportPdf } from './pdf/report-pdf.ts'

const parts = () => Promise.all([import('./pdf/report-pdf.ts'), import('./pdf/load-fonts.ts')])

/** Makes the file in this page, so that nothing leaves it and it can be made without a link. */
export function usePdf(content: Omit<PdfContent, 'messages'>): () => Promise<ReportPdf> {
  const messages = useMessages()
  const isLive = useBoardStatus().link.state === 'live'
  useEffect(() => {
    // fetched while there is a link; without one the button says that it failed
    if (isLive)
      parts()
        .then(([, { loadFonts }]) => loadFonts())
        .catch(() => undefined)
  }, [isLive])
  return async () => {
    const [{ reportPdf }, { loadFonts }] = await parts()
    return reportPdf({ ...content, messages }, await loadFonts())
  }
}
