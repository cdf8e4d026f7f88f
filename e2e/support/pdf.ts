import { type PDFiumDocument, PDFiumLibrary } from '@hyzyla/pdfium'
import jsQR from 'jsqr'

/** One printed page: its words, its size in points, and what its square code says, if it has one. */
export type PrintedPage = { text: string; width: number; height: number; code: string | null }

/** Dots of the picture to one point of the page: a code is read from it as a phone would. */
const SCALE = 3

/** What stands on the pages of a PDF, as they look when drawn. */
export const pagesOf = (pdf: Uint8Array): Promise<PrintedPage[]> =>
  opened(pdf, async (document) => {
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
    return pages
  })

/** The words of each page, which takes a fraction of the time. */
export const textsOf = (pdf: Uint8Array): Promise<string[]> =>
  opened(pdf, async (document) => [...document.pages()].map((page) => page.getText()))

/** One page as a picture, four bytes a dot, so many dots to a point. */
export const pictureOf = (pdf: Uint8Array, page: number, scale = 1) =>
  opened(pdf, (document) => document.getPage(page).render({ scale, render: 'bitmap' }))

async function opened<T>(pdf: Uint8Array, read: (document: PDFiumDocument) => Promise<T>): Promise<T> {
  const library = await PDFiumLibrary.init()
  try {
    const document = await library.loadDocument(pdf)
    const result = await read(document)
    document.destroy()
    return result
  } finally {
    library.destroy()
  }
}
