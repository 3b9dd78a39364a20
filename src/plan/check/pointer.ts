/** One step of a JSON pointer, as validators write it. */
export function escapeStep(step: string): string {
  return step.includes('~') || step.includes('/') ? step.replaceAll('~', '~0').replaceAll('/', '~1') : step;
}

export function unescapeStep(step: string): string {
  return step.replaceAll('~1', '/').replaceAll('~0', '~');
}
