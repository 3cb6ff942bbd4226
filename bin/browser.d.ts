/** The path of a Chromium, or null. */
export function findBrowser(): string | null;
