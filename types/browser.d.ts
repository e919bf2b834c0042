// What browsers have and TypeScript's own lists do not, or not everywhere. No page loads this.

interface Navigator {
  /** An iPhone's: opened from the home screen. */
  readonly standalone?: boolean;
  /** An iPhone's, from iOS 16.4. */
  readonly audioSession?: { type: string };
}

interface Window {
  isTooOld?: boolean;
}
