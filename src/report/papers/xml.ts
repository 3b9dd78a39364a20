/** Code points that XML 1.0 has no way to write: control characters, halves of pairs, the two that are no characters. */
const NOT_IN_XML = /[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu;

/** Text as XML or HTML writes it, also within quotes; what cannot be written at all becomes a replacement mark. */
export function xmlText(text: string): string {
  return text
    .replace(NOT_IN_XML, '\uFFFD')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
