/** The part of the PDF library that we use; it ships no types of its own. */
declare module 'pdfmake' {
  interface Document {
    getBuffer(): Promise<Buffer>;
  }
  interface Maker {
    setFonts(fonts: Record<string, Record<string, string>>): void;
    setUrlAccessPolicy(allowed: (url: string) => boolean): void;
    setLocalAccessPolicy(allowed: (path: string) => boolean): void;
    createPdf(definition: object): Document;
  }
  const maker: Maker;
  export default maker;
}
