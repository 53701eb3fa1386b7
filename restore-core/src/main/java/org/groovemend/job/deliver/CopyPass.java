package org.groovemend.job.deliver;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.Words;
import org.groovemend.chain.Progress;
import org.groovemend.chain.Quantiser;
import org.groovemend.deliverable.GainPlan;
import org.groovemend.job.side.RequestRefusedException;
import org.groovemend.measure.Decibels;
import org.groovemend.resample.SampleSink;
import org.groovemend.stage.Crew;

/**
 * One way through a copy: doubles to words, once, into its parts, and measured as they then are.
 * The dither hangs on the frame of the copy, so parts laid end to end are the words of the whole.
 */
final class CopyPass implements SampleSink {

  private final String name;
  private final List<CopyPart> parts;
  private final CopyPart.Opening opening;
  private final AudioFormat format;
  private final GainPlan gain;
  private final double factor;
  private final Quantiser quantiser;
  private final Crew crew;
  private final Progress progress;
  private final double[][] scaled;
  private final double[][] heard;
  private final long[][] words;
  private double peak;
  private int part;
  private boolean open;

  /**
   * @param name of the copy, for messages
   * @param parts in order; what lies between them is not written
   * @param opening makes the file of a part
   */
  CopyPass(
      String name,
      List<CopyPart> parts,
      CopyPart.Opening opening,
      AudioFormat format,
      GainPlan gain,
      long ditherSeed,
      Crew crew,
      Progress progress) {
    this.name = name;
    this.parts = parts;
    this.opening = opening;
    this.format = format;
    this.gain = gain;
    this.factor = gain.factor();
    this.quantiser = new Quantiser(format, ditherSeed);
    this.crew = crew;
    this.progress = progress;
    this.scaled = new double[format.channels()][0];
    this.heard = new double[format.channels()][0];
    this.words = new long[format.channels()][0];
  }

  @Override
  public void accept(long at, double[][] samples, int count) throws IOException {
    for (int c = 0; c < words.length; c++) {
      if (words[c].length < count) {
        scaled[c] = new double[count];
        heard[c] = new double[count];
        words[c] = new long[count];
      }
      for (int i = 0; i < count; i++) {
        double value = factor * samples[c][i];
        peak = Math.max(peak, Math.abs(value));
        scaled[c][i] = value;
      }
      quantiser.quantise(c, at, scaled[c], count, words[c]);
    }
    for (long from = at; part < parts.size() && parts.get(part).first() < at + count; ) {
      CopyPart now = parts.get(part);
      int offset = (int) (Math.max(from, now.first()) - at);
      int n = (int) (Math.min(at + count, now.end()) - at) - offset;
      if (!open) {
        now.open(opening);
        open = true;
      }
      put(now, offset, n);
      from = at + offset + n;
      if (from < now.end()) {
        break;
      }
      now.close();
      open = false;
      part++;
    }
    progress.at("writing", at + count, parts.get(parts.size() - 1).end());
  }

  private void put(CopyPart now, int offset, int n) throws IOException {
    for (int c = 0; c < words.length; c++) {
      Words.toDoubles(words[c], offset, heard[c], 0, n, format);
    }
    try {
      crew.together(() -> write(now, offset, n), () -> now.measure(heard, n));
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
  }

  private void write(CopyPart now, int offset, int n) {
    try {
      now.write(words, offset, n);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Closes a part that broke off. */
  void abandon() throws IOException {
    if (open) {
      parts.get(part).close();
    }
  }

  /** Refuses samples that were cut off at full scale. */
  void requireWhole() {
    if (quantiser.clipped() == 0) {
      return;
    }
    double over = Decibels.ofPower(peak * peak);
    throw new RequestRefusedException(
        String.format(
            Locale.ROOT,
            "%s: %d samples would have to be cut off at full scale, the largest lies at %+.2f dBFS; nothing was written:"
                + " give this copy \"gain: %.1f\" or less, a loudness, or the depth float32",
            name,
            quantiser.clipped(),
            over,
            Math.floor(10 * (gain.gainDb() - over - 0.05)) / 10));
  }
}
