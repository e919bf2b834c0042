// Lists and maps that are asked only for what is in them. No page loads this.

export interface Full<K, V> extends Map<K, V> {
  get(key: K): V;
}
