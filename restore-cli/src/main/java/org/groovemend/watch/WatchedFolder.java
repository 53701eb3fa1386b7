package org.groovemend.watch;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import org.groovemend.audio.file.AnnouncedLength;

/**
 * What is known of a folder from one look to the next. Times are those of a clock that the caller
 * reads, so that tests need not wait; clocks of file servers, which may be wrong, are only compared
 * with themselves.
 *
 * <p>Not safe for several threads.
 */
public final class WatchedFolder {

  private final Path folder;
  private final boolean below;
  private final long settledNanos;
  private final long patienceNanos;
  private final SortedMap<Path, Entry> entries = new TreeMap<>();

  /** Judged files that are there no more, to be known again under another name. */
  private final Map<Path, Entry> vanished = new HashMap<>();

  private final Set<Path> lost = new HashSet<>();
  private int looks;

  private enum Reason {
    GROWS,
    LENGTH,
    DENIED,
    TROUBLE
  }

  private static final class Entry {
    SeenFile seen;
    long since;
    int firstLook;
    long firstSeen;
    boolean judged;
    String why;

    /** What people have been told of it since it was last judged. */
    final Set<Reason> told = EnumSet.noneOf(Reason.class);

    Entry(SeenFile seen, long now, int look) {
      this.seen = seen;
      this.since = now;
      this.firstSeen = now;
      this.firstLook = look;
    }
  }

  /**
   * @param below whether folders in it are watched too
   */
  public WatchedFolder(Path folder, boolean below, WatchTimes times) {
    this.folder = folder;
    this.below = below;
    this.settledNanos = times.settled().toNanos();
    this.patienceNanos = times.patience().toNanos();
  }

  /**
   * Looks once.
   *
   * @param nanos by a clock that only goes forwards
   * @return what happened since the last look; finished files last, those first that were finished
   *     first
   */
  public List<WatchEvent> look(long nanos) {
    FolderListing listing = FolderListing.of(folder, below);
    List<WatchEvent> events = new ArrayList<>();
    losses(listing, events);
    missing(listing, nanos, events);
    List<WatchEvent.Ready> ready = new ArrayList<>();
    listing.files().forEach((file, seen) -> one(file, seen, nanos, events, ready));
    ready.sort(
        Comparator.comparingLong((WatchEvent.Ready r) -> entries.get(r.file()).since)
            .thenComparing(WatchEvent.Ready::file));
    events.addAll(ready);
    looks++;
    return events;
  }

  /** Says that a file was judged as it stood, so that it is not told again until it changes. */
  public void judged(Path file, SeenFile seen) {
    Entry entry = entries.get(file);
    if (entry != null && entry.seen.equals(seen)) {
      entry.judged = true;
      entry.told.clear();
    }
  }

  /**
   * Files that were there at the first look and are not finished, though they had time to be, or
   * cannot be opened; with the reason.
   *
   * @return null while some of them still may
   */
  public Map<Path, String> leftOver(long nanos) {
    Map<Path, String> left = new TreeMap<>();
    for (Map.Entry<Path, Entry> each : entries.entrySet()) {
      Entry entry = each.getValue();
      if (entry.judged || entry.firstLook > 0) {
        continue;
      }
      if (nanos - entry.firstSeen < settledNanos || entry.why == null) {
        return null;
      }
      left.put(each.getKey(), entry.why);
    }
    return left;
  }

  private void losses(FolderListing listing, List<WatchEvent> events) {
    listing
        .lost()
        .forEach(
            (place, why) -> {
              if (lost.add(place)) {
                events.add(new WatchEvent.Lost(place, why));
              }
            });
    for (Iterator<Path> it = lost.iterator(); it.hasNext(); ) {
      Path place = it.next();
      if (!listing.lost().containsKey(place)) {
        it.remove();
        events.add(new WatchEvent.Back(place));
      }
    }
  }

  private void missing(FolderListing listing, long now, List<WatchEvent> events) {
    vanished.values().removeIf(entry -> now - entry.since > patienceNanos);
    for (Iterator<Map.Entry<Path, Entry>> it = entries.entrySet().iterator(); it.hasNext(); ) {
      Map.Entry<Path, Entry> each = it.next();
      Path file = each.getKey();
      boolean hidden = lost.stream().anyMatch(file::startsWith);
      if (listing.files().containsKey(file) || hidden) {
        continue;
      }
      it.remove();
      if (each.getValue().judged) {
        each.getValue().since = now;
        vanished.put(file, each.getValue());
      } else if (!each.getValue().told.isEmpty()) {
        events.add(new WatchEvent.Gone(file));
      }
    }
  }

  private void one(
      Path file, SeenFile seen, long now, List<WatchEvent> events, List<WatchEvent.Ready> ready) {
    Entry entry = entries.get(file);
    if (entry == null) {
      entry = new Entry(seen, now, looks);
      Path before = knownAs(seen);
      entries.put(file, entry);
      if (before != null) {
        entry.judged = true;
        events.add(new WatchEvent.Renamed(file, before));
        return;
      }
    } else if (!entry.seen.equals(seen)) {
      entry.seen = seen;
      entry.since = now;
      entry.judged = false;
      wait(file, entry, Reason.GROWS, "it is still growing or changing", events);
    }
    if (entry.judged || now - entry.since < settledNanos) {
      return;
    }
    boolean last = now - entry.since >= patienceNanos;
    try {
      AnnouncedLength length = AnnouncedLength.of(file);
      boolean fits = length.fit() == AnnouncedLength.Fit.FITS;
      if (fits || last) {
        entry.why = null;
        ready.add(new WatchEvent.Ready(file, seen, fits ? null : length.words()));
      } else {
        wait(file, entry, Reason.LENGTH, length.words(), events);
      }
    } catch (AccessDeniedException e) {
      // rights may be given without a trace in size and time: asked at each look
      wait(file, entry, Reason.DENIED, "this user may not read it", events);
    } catch (NoSuchFileException e) {
      entry.why = "it is gone";
    } catch (IOException e) {
      if (last) {
        // its inspection says what is wrong
        ready.add(new WatchEvent.Ready(file, seen, null));
      } else {
        wait(file, entry, Reason.TROUBLE, "it cannot be read: " + e.getMessage(), events);
      }
    }
  }

  private static void wait(
      Path file, Entry entry, Reason reason, String why, List<WatchEvent> events) {
    entry.why = why;
    if (entry.told.add(reason)) {
      events.add(new WatchEvent.Waiting(file, why));
    }
  }

  private Path knownAs(SeenFile seen) {
    for (Map<Path, Entry> some : List.of(vanished, entries)) {
      for (Map.Entry<Path, Entry> each : some.entrySet()) {
        if (each.getValue().judged && each.getValue().seen.sameContent(seen)) {
          return each.getKey();
        }
      }
    }
    return null;
  }
}
