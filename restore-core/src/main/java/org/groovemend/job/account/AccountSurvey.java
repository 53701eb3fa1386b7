package org.groovemend.job.account;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.WordSource;
import org.groovemend.audio.Words;
import org.groovemend.chain.Progress;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.report.EditDensity;
import org.groovemend.report.EditDensityBuilder;
import org.groovemend.report.Envelope;
import org.groovemend.report.EnvelopeBuilder;
import org.groovemend.report.Pictures;

/**
 * What a person may want to know of a treatment, gathered from ledger and files in one pass each.
 */
final class AccountSurvey {

  private static final int BLOCK_FRAMES = 1 << 16;

  /** The repairs of one stage. */
  static final class Repairs {
    private long places;
    private long frames;
    private long longest;
    private long reached;
    private long unknown;
    private long unknownTo;

    private void add(LedgerEdit edit) {
      places++;
      longest = Math.max(longest, edit.frames());
      // time that lies in repairs, whichever channel: they come by start
      frames += Math.max(0, edit.end() - Math.max(edit.start(), reached));
      reached = Math.max(reached, edit.end());
      long gapEnd = edit.gapStart() + edit.gapFrames();
      unknown += Math.max(0, gapEnd - Math.max(edit.gapStart(), unknownTo));
      unknownTo = Math.max(unknownTo, gapEnd);
    }

    long places() {
      return places;
    }

    /** Time that lies in repairs of one channel or the other, frames. */
    long frames() {
      return frames;
    }

    /**
     * Time that was taken as unknown, frames. Less than {@link #frames} where what a tick leaves
     * behind it, such as its tail in a playback curve, was taken out from under the music.
     */
    long unknown() {
      return unknown;
    }

    long longest() {
      return longest;
    }
  }

  /**
   * What the comparison of transfer and copy gave.
   *
   * @param largest change of a sample, full scale 1.0
   * @param largestAt its frame
   * @param peak of the copy, full scale 1.0
   * @param changeRms of all that was taken away
   * @param rms of the transfer
   */
  record Compared(
      Envelope before,
      Envelope after,
      double largest,
      long largestAt,
      double peak,
      double changeRms,
      double rms) {}

  private final Map<String, Repairs> byStage = new LinkedHashMap<>();
  private final Repairs all = new Repairs();
  private EditDensity density;

  private AccountSurvey() {}

  static AccountSurvey of(Ledger ledger) throws IOException {
    AccountSurvey survey = new AccountSurvey();
    AudioFormat format = ledger.header().original().format();
    EditDensityBuilder density =
        new EditDensityBuilder(
            format, ledger.header().original().frames(), Pictures.EDIT_COLUMNS / 2);
    ledger.forEachEdit(
        edit -> {
          survey.byStage.computeIfAbsent(edit.stage(), stage -> new Repairs()).add(edit);
          survey.all.add(edit);
          density.add(edit.channel(), edit.start(), edit.end());
        });
    survey.density = density.build();
    return survey;
  }

  /** None if the stage made no edit. */
  Repairs of(String stage) {
    return byStage.getOrDefault(stage, new Repairs());
  }

  Repairs all() {
    return all;
  }

  EditDensity density() {
    return density;
  }

  static Compared compare(WordSource original, WordSource restored, Progress progress)
      throws IOException {
    AudioFormat format = original.format();
    long frames = original.frames();
    EnvelopeBuilder before = new EnvelopeBuilder(format, frames, Pictures.COLUMNS);
    EnvelopeBuilder after = new EnvelopeBuilder(format, frames, Pictures.COLUMNS);
    long[][] words = new long[format.channels()][BLOCK_FRAMES];
    double[][] was = new double[format.channels()][BLOCK_FRAMES];
    double[][] is = new double[format.channels()][BLOCK_FRAMES];
    double largest = 0;
    long largestAt = 0;
    double changes = 0;
    double squares = 0;
    for (long first = 0; first < frames; first += BLOCK_FRAMES) {
      progress.at("comparing", first, frames);
      int count = (int) Math.min(BLOCK_FRAMES, frames - first);
      read(original, first, count, words, was);
      read(restored, first, count, words, is);
      before.accept(was, 0, count);
      after.accept(is, 0, count);
      for (int c = 0; c < was.length; c++) {
        for (int i = 0; i < count; i++) {
          double change = Math.abs(was[c][i] - is[c][i]);
          if (change > largest) {
            largest = change;
            largestAt = first + i;
          }
          changes += change * change;
          squares += was[c][i] * was[c][i];
        }
      }
    }
    Envelope copy = after.build();
    double samples = Math.max(1, frames * (double) format.channels());
    return new Compared(
        before.build(),
        copy,
        largest,
        largestAt,
        copy.peak(),
        Math.sqrt(changes / samples),
        Math.sqrt(squares / samples));
  }

  private static void read(WordSource side, long first, int count, long[][] words, double[][] into)
      throws IOException {
    side.readWords(first, count, words, 0);
    for (int c = 0; c < into.length; c++) {
      for (int i = 0; i < count; i++) {
        into[c][i] = Words.toDouble(words[c][i], side.format());
      }
    }
  }
}
