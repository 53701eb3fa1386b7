package org.groovemend.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CancellationException;
import org.groovemend.chain.Progress;
import org.groovemend.job.inspect.Inspect;
import org.groovemend.job.inspect.InspectRequest;
import org.groovemend.limits.Judgement;
import org.groovemend.limits.LimitProfile;
import org.groovemend.playback.CaptureCurve;
import org.groovemend.watch.SeenFile;
import org.groovemend.watch.WatchEvent;
import org.groovemend.watch.WatchedFolder;

/** Looks at a folder again and again and inspects what is finished, one file after the other. */
final class WatchRounds {
  private static final long NAP_MILLIS = 100;

  private final WatchedFolder folder;
  private final WatchLines lines;
  private final WatchStore store;
  private final Hands hands;
  private final LimitProfile limits;
  private final CaptureCurve captured;
  private final CommonOptions common;

  /** Verdict of each file that stands as it was judged; null for one that failed. */
  private final Map<Path, Judgement> verdicts = new HashMap<>();

  /**
   * @param store where results go, or null
   */
  WatchRounds(
      WatchedFolder folder,
      WatchLines lines,
      WatchStore store,
      Hands hands,
      LimitProfile limits,
      CaptureCurve captured,
      CommonOptions common) {
    this.folder = folder;
    this.lines = lines;
    this.store = store;
    this.hands = hands;
    this.limits = limits;
    this.captured = captured;
    this.common = common;
  }

  /**
   * Until the process is told to end, or, once, until all that was there is judged or had its time.
   *
   * @return the exit code
   */
  int run(boolean once, long everyMillis) {
    Map<Path, String> left = null;
    while (left == null && !hands.stopping() && !Thread.currentThread().isInterrupted()) {
      List<WatchEvent> events = folder.look(System.nanoTime());
      for (WatchEvent event : events) {
        if (!hands.stopping()) {
          take(event);
        }
      }
      left = once ? folder.leftOver(System.nanoTime()) : null;
      if (left == null) {
        sleep(everyMillis);
      }
    }
    if (left != null) {
      left.forEach(
          (file, why) -> {
            verdicts.put(file, null);
            lines.note("left", file, "not judged: " + why);
          });
    }
    return end(left == null);
  }

  private int end(boolean interrupted) {
    int failed = count(null);
    int look = count(Judgement.LOOK);
    int redo = count(Judgement.REDO);
    int judged = verdicts.size() - failed;
    lines.end(judged, judged - look - redo, look, redo, failed);
    return interrupted
        ? ExitCode.INTERRUPTED
        : failed > 0
            ? ExitCode.PARTLY_FAILED
            : look + redo > 0 ? ExitCode.PERSON_NEEDED : ExitCode.DONE;
  }

  private int count(Judgement verdict) {
    return (int) verdicts.values().stream().filter(v -> v == verdict).count();
  }

  private void sleep(long millis) {
    try {
      for (long left = millis; left > 0 && !hands.stopping(); left -= NAP_MILLIS) {
        Thread.sleep(Math.min(left, NAP_MILLIS));
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void take(WatchEvent event) {
    if (event instanceof WatchEvent.Ready ready) {
      judge(ready);
    } else if (event instanceof WatchEvent.Waiting waiting) {
      lines.note("waits", waiting.file(), waiting.why());
    } else if (event instanceof WatchEvent.Gone gone) {
      lines.note("gone", gone.file(), "it is there no more and was not judged");
    } else if (event instanceof WatchEvent.Renamed renamed) {
      Judgement verdict = verdicts.get(renamed.before());
      if (!Files.exists(renamed.before())) {
        verdicts.remove(renamed.before());
      }
      verdicts.put(renamed.file(), verdict);
      lines.note(
          "renamed",
          renamed.file(),
          "the same file was judged as "
              + renamed.before().getFileName()
              + (verdict == null ? "" : ": " + verdict.key()));
    } else if (event instanceof WatchEvent.Lost lost) {
      lines.note(
          "lost", lost.folder(), "this folder cannot be looked at: " + lost.why() + "; waiting");
    } else if (event instanceof WatchEvent.Back back) {
      lines.note("back", back.folder(), "this folder can be looked at again");
    }
  }

  private void judge(WatchEvent.Ready ready) {
    Path file = ready.file();
    SeenFile seen = ready.seen();
    WatchTold known = store == null ? null : store.known(file, seen);
    if (known != null) {
      lines.judged(file, seen, known, true, ready.doubt(), store);
      done(file, seen, known.verdict());
      return;
    }
    Inspect.Outcome found = inspect(file, seen);
    if (found == null) {
      return;
    }
    WatchTold told = WatchTold.of(found.side());
    if (store == null) {
      lines.judged(file, seen, told, false, ready.doubt(), null);
      done(file, seen, told.verdict());
      return;
    }
    try {
      store.write(file, seen, found);
      lines.judged(file, seen, told, false, ready.doubt(), store);
      done(file, seen, told.verdict());
    } catch (IOException | RuntimeException e) {
      // what was found is told nevertheless
      lines.judged(file, seen, told, false, ready.doubt(), null);
      lines.failed(file, Failures.describe(e, List.of(file), true));
      done(file, seen, null);
    }
  }

  /** Null if there is nothing to tell of it, or it is told that it failed. */
  private Inspect.Outcome inspect(Path file, SeenFile seen) {
    Progress bar = common.progress(Usage.fileName(file));
    try {
      InspectRequest request =
          new InspectRequest(file, captured, limits, store != null && store.pages());
      Inspect.Outcome found = Inspect.run(request, hands.crew(), hands.watching(bar));
      ProgressBar.clear(bar);
      if (changed(file, seen)) {
        lines.note("waits", file, "it was changed while it was inspected");
        return null;
      }
      return found;
    } catch (IOException | RuntimeException | OutOfMemoryError e) {
      ProgressBar.clear(bar);
      if (e instanceof CancellationException) {
        return null;
      }
      if (!Files.exists(file)) {
        lines.note("gone", file, "it vanished while it was inspected");
      } else if (changed(file, seen)) {
        lines.note("waits", file, "it was changed while it was inspected");
      } else {
        lines.failed(file, Failures.describe(e, List.of(file), true));
        done(file, seen, null);
      }
      return null;
    }
  }

  private static boolean changed(Path file, SeenFile seen) {
    try {
      return !SeenFile.of(file).equals(seen);
    } catch (IOException e) {
      return true;
    }
  }

  private void done(Path file, SeenFile seen, Judgement verdict) {
    verdicts.put(file, verdict);
    folder.judged(file, seen);
  }
}
