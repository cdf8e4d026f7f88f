/** The part of the UCUM library that the published checks use; the package has no types of its own. */
declare module '@lhncbc/ucum-lhc' {
  type Conversion = { status: 'succeeded' | 'failed' | 'error'; toVal: number | null; msg: string[] }
  const ucum: {
    UcumLhcUtils: {
      getInstance(): { convertUnitTo(from: string, value: number, to: string): Conversion }
    }
  }
  export default ucum
}
