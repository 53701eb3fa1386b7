package org.groovemend.job.restore;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.groovemend.audio.WordSource;
import org.groovemend.chain.Progress;
import org.groovemend.listening.Clip;
import org.groovemend.listening.ClipMaker;
import org.groovemend.listening.Passage;
import org.groovemend.report.Listening;
import org.groovemend.stage.Crew;

/** Makes the listening list of the page and puts it into words. */
final class ListeningPage {

  /** A third more as text: the page stays within about 15 megabytes. */
  private static final long MOST_BYTES = 10_500_000;

  private final WordSource before;
  private final WordSource after;
  private final long seed;

  /**
   * @param seed of the clips' dither
   */
  ListeningPage(WordSource before, WordSource after, long seed) {
    this.before = before;
    this.after = after;
    this.seed = seed;
  }

  static Listening withoutClips() {
    return Listening.none("Clips to listen to were left out, as asked.");
  }

  /**
   * Reads the passages from both sides.
   *
   * @param scratch folder for a file that is deleted again
   */
  Listening make(List<Passage> passages, Path scratch, Crew crew, Progress progress)
      throws IOException {
    if (passages.isEmpty()) {
      return Listening.none("There is nothing to listen to: no passage holds sound.");
    }
    progress.at("cutting clips", 0, 1);
    List<Clip> clips =
        new ClipMaker(before, after, scratch.resolve("clip.flac"), seed, crew)
            .make(passages, MOST_BYTES);
    progress.at("cutting clips", 1, 1);
    return new Listening(
        sentence(clips.get(0).sampleRateHz()) + missing(passages),
        clips.stream().map(this::place).toList());
  }

  /** What is not in the list, and why. */
  private static String missing(List<Passage> passages) {
    StringBuilder text = new StringBuilder();
    for (Passage.Kind kind : Passage.Kind.values()) {
      if (passages.stream().noneMatch(passage -> passage.kind() == kind)) {
        text.append(
            switch (kind) {
              case QUIETEST -> " No quiet passage stands clear of the groove.";
              case FADE -> " No fade was found.";
              case MOST_REPAIRS -> " No place was repaired.";
              case LOUDEST, END -> "";
            });
      }
    }
    return text.toString();
  }

  private String sentence(int sampleRateHz) {
    return String.format(
        Locale.ROOT,
        "All versions of a passage play at the same gain, so that differences are heard as they are. The gain stands beside each"
            + " passage: it brings the clean copy to %.0f dBFS RMS, or less where a peak would pass %.0f dBFS or %.0f dB would not"
            + " do. Removed is before less after. Clips are 16-bit FLAC with dither at %,d Hz%s, faded in and out over 10 ms;"
            + " the files themselves are not changed. Passages were picked by level, 100 ms by 100 ms.",
        ClipMaker.LEVEL_DB,
        ClipMaker.PEAK_DB,
        ClipMaker.MOST_GAIN_DB,
        sampleRateHz,
        sampleRateHz == before.format().sampleRateHz() ? "" : ", less than the rate of the side");
  }

  private Listening.Place place(Clip clip) {
    List<Listening.Sound> sounds = new ArrayList<>();
    for (Clip.Version version : clip.versions()) {
      sounds.add(new Listening.Sound(label(clip, version), version.flac()));
    }
    String gain = String.format(Locale.ROOT, " Played at %+.1f dB.", clip.gainDb());
    String same = sounds.size() == 1 ? " Nothing was changed here." : "";
    Passage passage = clip.passage();
    return new Listening.Place(
        passage.kind().title(),
        time(passage.startFrame()) + " to " + time(passage.endFrame()),
        passage.reason() + same + gain,
        sounds);
  }

  private static String label(Clip clip, Clip.Version version) {
    return switch (version.content()) {
      case BEFORE -> clip.versions().size() == 1 ? "Before and after" : "Before";
      case AFTER -> "After";
      case REMOVED -> "Removed, at the same gain";
      case REMOVED_RAISED ->
          String.format(
              Locale.ROOT, "Removed, raised by %.0f dB: turn down first", version.raisedDb());
    };
  }

  private String time(long frame) {
    double seconds = before.format().seconds(frame);
    long tenths = Math.round(10 * seconds);
    return String.format(Locale.ROOT, "%d:%02d.%d", tenths / 600, tenths / 10 % 60, tenths % 10);
  }
}
