/** Dots for each of the picture's pixels: sharp on paper too. */
const SCALE = 2;
/** Longer than this in either direction, browsers draw nothing. */
const MOST_DOTS = 16_000;

/** A picture as PNG, base64; undefined where the page cannot draw it. */
export async function pngOf(svg: string): Promise<string | undefined> {
  const image = new Image();
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;
  await image.decode();
  const scale = Math.min(SCALE, MOST_DOTS / Math.max(image.width, image.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.round(image.width * scale);
  canvas.height = Math.round(image.height * scale);
  const context = canvas.getContext('2d');
  if (!context) return undefined;
  context.drawImage(image, 0, 0, canvas.width, canvas.height);
  return canvas.toDataURL('image/png').replace(/^data:image\/png;base64,/, '');
}
