package org.groovemend.listening;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.flac.FlacWriter;
import org.groovemend.chain.Quantiser;
import org.groovemend.measure.Decibels;
import org.groovemend.stage.Crew;

/**
 * Makes clips of passages: 16-bit FLAC with triangular dither, above 88.2 kHz at a half, quarter or
 * eighth of the rate.
 *
 * <p>All versions of a passage get the same gain: what brings the clean copy to {@value #LEVEL_DB}
 * dBFS RMS, so that a list can be heard at one setting, but not more than {@value #MOST_GAIN_DB} dB
 * and never so much that a sample of any version passes {@value #PEAK_DB} dBFS. They are faded in
 * and out over {@value #FADE_SECONDS} s, so that they neither begin nor end with a pop.
 */
public final class ClipMaker {

  public static final double LEVEL_DB = -23;
  public static final double MOST_GAIN_DB = 24;
  public static final double PEAK_DB = -1;
  public static final double FADE_SECONDS = 0.01;

  /** What was removed is offered louder as well if it can be raised by this much or more. */
  private static final double WORTH_RAISING_DB = 6;

  private static final double MOST_RAISED_DB = 20;

  /** Passages are shortened so that they fit into a number of bytes, but not below this. */
  private static final double SHORTEST_SECONDS = 2;

  private static final double MARGIN = 0.95;
  private static final int BITS = 16;
  private static final int BLOCK_FRAMES = 1 << 13;

  private final WordSource before;
  private final WordSource after;
  private final Path scratch;
  private final long seed;
  private final Crew crew;
  private final Decimator lowPass;
  private final AudioFormat format;

  /**
   * @param before the transfer
   * @param after the clean copy, another source than {@code before}
   * @param scratch a file that does not exist; made and deleted again
   * @param seed of the dither
   */
  public ClipMaker(WordSource before, WordSource after, Path scratch, long seed, Crew crew) {
    this.before = before;
    this.after = after;
    this.scratch = scratch;
    this.seed = seed;
    this.crew = crew;
    int rate = before.format().sampleRateHz();
    lowPass = ClipSound.decimator(rate);
    // a rate that does not divide is off by less than one part in forty thousand
    format = AudioFormat.pcm(rate / lowPass.factor(), before.format().channels(), BITS);
  }

  /**
   * Makes a clip of each passage. If together they would be too long, all are shortened in
   * proportion.
   *
   * @param mostBytes of all FLAC files together; exceeded only if clips of two seconds do
   */
  public List<Clip> make(List<Passage> passages, long mostBytes) throws IOException {
    double share = 1;
    List<Clip> clips = clips(passages, share);
    while (bytes(clips) > mostBytes && longest(passages) * share > shortest()) {
      share *= MARGIN * mostBytes / bytes(clips);
      clips = clips(passages, share);
    }
    return clips;
  }

  private static long longest(List<Passage> passages) {
    return passages.stream().mapToLong(Passage::frames).max().orElse(0);
  }

  private static long bytes(List<Clip> clips) {
    return clips.stream().mapToLong(Clip::bytes).sum();
  }

  private long shortest() {
    return before.format().frames(SHORTEST_SECONDS);
  }

  private List<Clip> clips(List<Passage> passages, double share) throws IOException {
    List<Clip> clips = new ArrayList<>();
    for (Passage passage : passages) {
      long frames = Math.max(shortest(), (long) (share * passage.frames()));
      clips.add(clip(passage.shortened(frames)));
    }
    return clips;
  }

  private Clip clip(Passage passage) throws IOException {
    double[][][] sound = new double[2][][];
    try {
      crew.together(() -> sound[0] = read(before, passage), () -> sound[1] = read(after, passage));
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
    double[][] removed = difference(sound[0], sound[1]);
    double removedPeak = peak(removed);
    double peak = Math.max(removedPeak, Math.max(peak(sound[0]), peak(sound[1])));
    double gainDb = Math.min(MOST_GAIN_DB, Math.min(LEVEL_DB - level(sound[1]), headroom(peak)));
    gainDb = Math.floor(10 * gainDb) / 10;
    List<Clip.Version> versions = new ArrayList<>();
    versions.add(version(Clip.Content.BEFORE, sound[0], gainDb, 0));
    if (removedPeak > 0) {
      versions.add(version(Clip.Content.AFTER, sound[1], gainDb, 0));
      versions.add(version(Clip.Content.REMOVED, removed, gainDb, 0));
      double raisedDb = Math.floor(Math.min(MOST_RAISED_DB, headroom(removedPeak) - gainDb));
      // the end is long: its bytes are better spent on longer passages
      if (raisedDb >= WORTH_RAISING_DB && passage.kind() != Passage.Kind.END) {
        versions.add(version(Clip.Content.REMOVED_RAISED, removed, gainDb, raisedDb));
      }
    }
    return new Clip(passage, format.sampleRateHz(), gainDb, versions);
  }

  private double[][] read(WordSource side, Passage passage) {
    try {
      return ClipSound.read(side, passage.startFrame(), passage.frames(), lowPass);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static double[][] difference(double[][] a, double[][] b) {
    double[][] difference = new double[a.length][a[0].length];
    for (int c = 0; c < a.length; c++) {
      for (int i = 0; i < a[c].length; i++) {
        difference[c][i] = a[c][i] - b[c][i];
      }
    }
    return difference;
  }

  private static double peak(double[][] sound) {
    double peak = 0;
    for (double[] channel : sound) {
      for (double x : channel) {
        peak = Math.max(peak, Math.abs(x));
      }
    }
    return peak;
  }

  /** Root mean square over all channels, dBFS. */
  private static double level(double[][] sound) {
    double sum = 0;
    for (double[] channel : sound) {
      for (double x : channel) {
        sum += x * x;
      }
    }
    return Decibels.ofPower(sum / ((double) sound.length * sound[0].length));
  }

  /** Gain that brings a peak, with its dither, to the highest allowed. */
  private static double headroom(double peak) {
    double top = StrictMath.pow(10, PEAK_DB / 20) - 2.0 / (1 << BITS - 1);
    return Decibels.ofAmplitude(top) - Decibels.ofAmplitude(peak);
  }

  private Clip.Version version(
      Clip.Content content, double[][] sound, double gainDb, double raisedDb) throws IOException {
    int channels = sound.length;
    int frames = sound[0].length;
    double gain = StrictMath.pow(10, (gainDb + raisedDb) / 20);
    Quantiser quantiser = new Quantiser(format, seed + content.ordinal());
    double[][] samples = new double[channels][BLOCK_FRAMES];
    long[][] words = new long[channels][BLOCK_FRAMES];
    try {
      try (FlacWriter flac =
          new FlacWriter(scratch, format, frames, crew.executor(), crew.hands())) {
        for (int at = 0; at < frames; at += BLOCK_FRAMES) {
          int n = Math.min(BLOCK_FRAMES, frames - at);
          for (int c = 0; c < channels; c++) {
            for (int i = 0; i < n; i++) {
              samples[c][i] = gain * fade(at + i, frames) * sound[c][at + i];
            }
            quantiser.quantise(c, at, samples[c], n, words[c]);
          }
          flac.write(words, 0, n);
        }
      }
      return new Clip.Version(content, raisedDb, Files.readAllBytes(scratch));
    } finally {
      Files.deleteIfExists(scratch);
    }
  }

  /** 1, but rising from 0 at the beginning and falling to 0 at the end, as a squared sine. */
  private double fade(int at, int frames) {
    long length = Math.min(frames / 2, format.frames(FADE_SECONDS));
    int fromEnd = Math.min(at, frames - 1 - at);
    if (fromEnd >= length) {
      return 1;
    }
    double s = StrictMath.sin(Math.PI / 2 * (fromEnd + 0.5) / length);
    return s * s;
  }
}
