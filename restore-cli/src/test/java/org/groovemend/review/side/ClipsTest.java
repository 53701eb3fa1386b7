package org.groovemend.review.side;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import javax.sound.sampled.AudioInputStream;
import javax.sound.sampled.AudioSystem;
import org.groovemend.chain.Progress;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.review.InventedLedger;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The sounds, read back with the JDK's own WAV reader. */
class ClipsTest {

  private static final int RATE = InventedLedger.RATE;

  @TempDir static Path folder;
  private static ReviewSide side;
  private static Clips clips;

  @BeforeAll
  static void open() throws Exception {
    Ledger ledger = Ledger.open(InventedLedger.write(folder, "side", 10L * RATE, 200, 9));
    side =
        ReviewSide.open(
            ledger.path(), new LedgerFiles(null, null, null), List.of(), Progress.SILENT);
    clips = new Clips(side);
  }

  @AfterAll
  static void close() throws IOException {
    side.close();
  }

  private static double[][] samples(byte[] wav) throws Exception {
    try (AudioInputStream in = AudioSystem.getAudioInputStream(new ByteArrayInputStream(wav))) {
      assertThat(in.getFormat().getSampleSizeInBits()).isEqualTo(16);
      assertThat(in.getFormat().getSampleRate()).isEqualTo(RATE);
      byte[] bytes = in.readAllBytes();
      double[][] out = new double[2][bytes.length / 4];
      for (int i = 0; i < bytes.length / 2; i++) {
        out[i % 2][i / 2] = (short) (bytes[2 * i] & 0xff | bytes[2 * i + 1] << 8) / 32768.0;
      }
      return out;
    }
  }

  private static double peakDb(double[][] sound, int from, int to) {
    double peak = 1e-9;
    for (double[] channel : sound) {
      for (int i = from; i < to; i++) {
        peak = Math.max(peak, Math.abs(channel[i]));
      }
    }
    return 20 * Math.log10(peak);
  }

  /** Root mean square of what no edit touches, without the fades. */
  private static double levelDb(double[][] sound, long first) {
    double sum = 0;
    int count = 0;
    int margin = RATE / 20;
    for (int i = margin; i < sound[0].length - margin; i++) {
      boolean inside = false;
      for (int e = 0; e < side.edits().size(); e++) {
        inside |= first + i >= side.edits().start(e) - 1 && first + i <= side.edits().end(e);
      }
      if (!inside) {
        sum += sound[0][i] * sound[0][i] + sound[1][i] * sound[1][i];
        count += 2;
      }
    }
    return 10 * Math.log10(sum / count);
  }

  @Test
  void beforeAndAfterAreAsLoudWithinATenthOfADecibel() throws Exception {
    for (int edit : new int[] {3, 50, 120, 190}) {
      long from = Math.max(0, side.edits().start(edit) - RATE);
      Clip clip = clips.clip(from, Math.min(side.frames(), from + 2 * RATE), true);
      assertThat(clip.matched()).isTrue();
      double before = levelDb(samples(clip.before()), from);
      double after = levelDb(samples(clip.after()), from);
      assertThat(after).isEqualTo(before, within(0.1));
    }
  }

  @Test
  void noVersionPassesItsCeiling() throws Exception {
    for (int edit = 0; edit < 200; edit += 20) {
      long from = Math.max(0, side.edits().start(edit) - RATE / 2);
      Clip clip = clips.clip(from, Math.min(side.frames(), from + RATE), edit % 40 == 0);
      double[][] before = samples(clip.before());
      double[][] removed = samples(clip.removed());
      // the dither of 16 bits adds a step at most
      assertThat(peakDb(before, 0, before[0].length)).isLessThan(Clips.CEILING_DB + 0.01);
      assertThat(peakDb(samples(clip.after()), 0, before[0].length))
          .isLessThan(Clips.CEILING_DB + 0.01);
      assertThat(peakDb(removed, 0, removed[0].length)).isLessThan(Clips.REMOVED_CEILING_DB + 0.01);
      assertThat(peakDb(removed, 0, removed[0].length)).isGreaterThan(-60);
    }
  }

  @Test
  void allBeginAndEndSoftly() throws Exception {
    Clip clip = clips.clip(RATE, 3L * RATE, true);
    for (byte[] wav : new byte[][] {clip.before(), clip.after(), clip.removed()}) {
      double[][] sound = samples(wav);
      int n = sound[0].length;
      // a thousandth of a second into a fade of 30 ms a squared sine stands at 0.27 %
      assertThat(peakDb(sound, 0, RATE / 1000)).isLessThan(-50);
      assertThat(peakDb(sound, n - RATE / 1000, n)).isLessThan(-50);
    }
    double[][] removed = samples(clip.removed());
    assertThat(peakDb(removed, 0, RATE / 100)).isLessThan(Clips.REMOVED_CEILING_DB - 30);
  }

  @Test
  void whatWasTakenAwayIsTheDifference() throws Exception {
    Clip clip = clips.clip(2L * RATE, 3L * RATE, false);
    double[][] before = samples(clip.before());
    double[][] after = samples(clip.after());
    double[][] removed = samples(clip.removed());
    double scale = Math.pow(10, (clip.removedGainDb() - clip.gainDb()) / 20);
    for (int i = RATE / 5; i < RATE * 4 / 5; i++) {
      for (int c = 0; c < 2; c++) {
        // three times triangular dither of one step
        assertThat(removed[c][i])
            .isEqualTo((before[c][i] - after[c][i]) * scale, within(5.0 / 32768));
      }
    }
  }

  @Test
  void silenceAndLongPlacesHaveAnAnswer() {
    assertThatThrownBy(() -> clips.clip(0, 100L * RATE, true))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> clips.clip(5, 5, true)).isInstanceOf(IllegalArgumentException.class);
  }
}
