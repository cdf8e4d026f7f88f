declare module 'svg-to-pdfkit' {
  /** Draws an SVG into a PDF document at a point. `fontCallback` answers with a font's file. */
  export default function SVGtoPDF(
    doc: unknown,
    svg: string,
    x: number,
    y: number,
    options?: {
      width?: number
      height?: number
      assumePt?: boolean
      fontCallback?: (family: string, bold: boolean, italic: boolean) => string
      warningCallback?: (warning: string) => void
    },
  ): void
}
