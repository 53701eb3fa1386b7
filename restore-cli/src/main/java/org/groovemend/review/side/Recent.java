package org.groovemend.review.side;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.Map;

/** What was made last, so that it need not be made again; safe for use by several threads. */
final class Recent<K, V> {

  /** Makes what is not there. */
  @FunctionalInterface
  interface Maker<K, V> {
    V make(K key) throws IOException;
  }

  private final Map<K, V> kept;

  Recent(int most) {
    kept =
        new LinkedHashMap<>(16, 0.75f, true) {
          private static final long serialVersionUID = 1L;

          @Override
          protected boolean removeEldestEntry(Map.Entry<K, V> eldest) {
            return size() > most;
          }
        };
  }

  V get(K key, Maker<K, V> maker) throws IOException {
    synchronized (kept) {
      V there = kept.get(key);
      if (there != null) {
        return there;
      }
    }
    V made = maker.make(key);
    synchronized (kept) {
      kept.put(key, made);
    }
    return made;
  }
}
