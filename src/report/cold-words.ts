/**
 * When all fruit is cold, in days from the first bin; of a room with a warm hold (`daysToStorage` given), when it is at that
 * and when at storage temperature.
 */
export function coldWords(daysToCold: string, daysToStorage: string | undefined): string {
  return daysToStorage === undefined
    ? `All fruit is cold ${daysToCold} days after the first bin.`
    : `All fruit is at its warm hold ${daysToCold} days after the first bin, and the room at storage temperature ${daysToStorage} days after it.`;
}
