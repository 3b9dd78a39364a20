/** Bytes as base64 text, in parts: a call with all bytes as arguments has too many of them. */
export function base64Of(bytes: Uint8Array): string {
  let letters = '';
  for (let at = 0; at < bytes.length; at += 8192)
    letters += String.fromCharCode(...bytes.subarray(at, at + 8192));
  return btoa(letters);
}

export function bytesOf(base64: string): Uint8Array {
  return Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
}
