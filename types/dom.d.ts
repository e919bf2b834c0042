// What a page of ours is made of, for the type check. No page loads this.

/** What an attribute may be: null, undefined and false leave it out. */
export type Value = string | number | bigint | boolean | null | undefined;

/** Properties of an element: `on…` are listeners, the others attributes. */
export type Props<E extends Element = Element> = {
  [K in keyof Heard as `on${K}`]?: ((event: Heard[K] & { currentTarget: E }) => unknown) | null | false;
} & { [name: string]: Value | ((event: never) => unknown) };

type Heard = HTMLElementEventMap;

export type Child = Node | string | number | null | undefined | false;

/** The element that a tag makes. */
export type Named<K extends string> = K extends keyof HTMLElementTagNameMap ? HTMLElementTagNameMap[K] : HTMLElement;

/** Whose children are kept by key. */
export type Keyed<K = unknown, E extends Element = Element> = Element & { keyedNodes?: Map<K, E> };
