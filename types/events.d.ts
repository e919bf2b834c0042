// Events of our own: which there are on what, and what they carry. No page loads this.

/** An event target whose events are known. */
export interface Hears<M> extends Omit<EventTarget, "addEventListener" | "removeEventListener"> {
  addEventListener<K extends keyof M & string>(
    name: K,
    listener: (event: CustomEvent<M[K]>) => unknown,
    options?: boolean | AddEventListenerOptions,
  ): void;
  removeEventListener<K extends keyof M & string>(name: K, listener: (event: CustomEvent<M[K]>) => unknown): void;
}
export interface HearsClass<M> {
  new (): Hears<M>;
  prototype: Hears<M>;
}
