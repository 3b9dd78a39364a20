declare module 'xml2js' {
  /** Reads XML and throws where it is not well-formed. */
  // biome-ignore lint/suspicious/noExplicitAny: what it reads is as the test expects it
  export function parseStringPromise(xml: string): Promise<any>;
}
