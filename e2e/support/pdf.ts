import { PDFiumLibrary } from '@hyzyla/pdfium'
import jsQR from 'jsqr'

/** One printed page: its words, its size in points, and what its square code says, if it has one. */
export type PrintedPage = { text: string; width: number; height: number; code: string | null }

/** Dots of the picture to one point of the page: a code is read from it as a phone would. */
const SCALE = 3

/** What stands on the pages of a PDF, as they look when drawn. */
export async function pagesOf(pdf: Uint8Array): Promise<PrintedPage[]> {
  const library = await PDFiumLibrary.init()
  try {
    const document = await library.loadDocument(pdf)
    const pages: PrintedPage[] = []
    for (const page of document.pages()) {
      // Drawing a page closes it: its words are read first.
      const { originalWidth, originalHeight } = page.getOriginalSize()
      const text = page.getText()
      const { data, width, height } = await page.render({ scale: SCALE, render: 'bitmap' })
      pages.push({
        text,
        width: Math.round(originalWidth),
        height: Math.round(originalHeight),
        code: jsQR(new Uint8ClampedArray(data), width, height)?.data ?? null,
      })
    }
    document.destroy()
    return pages
  } finally {
    library.destroy()
  }
}
