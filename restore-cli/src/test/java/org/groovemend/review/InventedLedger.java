package org.groovemend.review;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleDigest;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.audio.file.WavWriter;
import org.groovemend.ledger.AppliedStage;
import org.groovemend.ledger.Dither;
import org.groovemend.ledger.Environment;
import org.groovemend.ledger.FileFacts;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.ledger.LedgerHeader;
import org.groovemend.ledger.LedgerTotals;
import org.groovemend.ledger.LedgerWriter;
import org.groovemend.ledger.RangeWords;
import org.groovemend.ledger.Sha256;

/**
 * An invented side of any length with any number of edits, and its ledger; nothing is restored, so
 * an hour with a hundred thousand edits takes about a minute. Stereo, 24 bits: a tone and noise,
 * louder and softer; the transfer has a pulse at every edit.
 *
 * <p>{@code main FOLDER MINUTES EDITS} writes {@code big.wav}, {@code big.restored.wav} and {@code
 * big.ledger.jsonl}.
 */
public final class InventedLedger {

  public static final int RATE = 44_100;
  static final AudioFormat FORMAT = AudioFormat.pcm(RATE, 2, 24);
  private static final int BLOCK = 1 << 15;
  private static final String[] STAGES = {"clicks", "thumps"};

  private final long frames;
  private final long[] starts;
  private final int[] lengths;
  private final int[] channels;
  private final int[] stages;
  private final double[] margins;
  private final int[] noise = new int[1 << 16];
  private final int[] tone = new int[RATE];

  private InventedLedger(long frames, int edits, long seed) {
    this.frames = frames;
    Random random = new Random(seed);
    starts = new long[edits];
    lengths = new int[edits];
    channels = new int[edits];
    stages = new int[edits];
    margins = new double[edits];
    // one edit in each slot of equal length, so that none overlap
    double slot = frames / (double) Math.max(1, edits);
    for (int i = 0; i < edits; i++) {
      stages[i] = random.nextInt(20) == 0 ? 1 : 0;
      int most = (int) Math.min(stages[i] == 1 ? 400 : 40, slot / 2);
      lengths[i] = Math.max(3, random.nextInt(Math.max(4, most)));
      starts[i] = (long) (i * slot) + random.nextInt((int) Math.max(1, slot - lengths[i]));
      channels[i] = random.nextInt(2);
      // none lies over the border of two blocks
      long border = (starts[i] / BLOCK + 1) * BLOCK;
      if (starts[i] + lengths[i] > border) {
        starts[i] = border - lengths[i] >= (long) (i * slot) ? border - lengths[i] : border;
      }
      margins[i] = -Math.log(1 - random.nextDouble()) * 2;
    }
    for (int i = 0; i < noise.length; i++) {
      noise[i] = (int) (random.nextGaussian() * 8000);
    }
    for (int i = 0; i < tone.length; i++) {
      tone[i] =
          (int)
              (900_000 * Math.sin(2 * Math.PI * 440 * i / RATE)
                  + 500_000 * Math.sin(2 * Math.PI * 1007 * i / RATE));
    }
  }

  public static void main(String[] args) throws IOException {
    Path folder = Path.of(args[0]);
    Files.createDirectories(folder);
    long frames = Math.round(Double.parseDouble(args[1]) * 60 * RATE);
    write(folder, "big", frames, Integer.parseInt(args[2]), 7);
    System.out.println(folder.resolve("big.ledger.jsonl"));
  }

  /** Writes NAME.wav, NAME.restored.wav and NAME.ledger.jsonl; gives the ledger. */
  public static Path write(Path folder, String name, long frames, int edits, long seed)
      throws IOException {
    return new InventedLedger(frames, edits, seed).write(folder, name);
  }

  private Path write(Path folder, String name) throws IOException {
    Path original = folder.resolve(name + ".wav");
    Path restored = folder.resolve(name + ".restored.wav");
    Path ledger = folder.resolve(name + ".ledger.jsonl");
    String before = sound(original, true);
    String after = sound(restored, false);
    try (OutputStream out = Files.newOutputStream(ledger);
        LedgerWriter writer = new LedgerWriter(out);
        SideReader side = SideFiles.open(original)) {
      writer.header(
          new LedgerHeader(
              "groovemend",
              "test",
              "2026-03-01T12:00:00Z",
              new Environment("17", "an invented vendor", "an invented system", "amd64"),
              facts(original, before),
              "flat",
              Map.of(),
              List.of(new AppliedStage("clicks", "repair"), new AppliedStage("thumps", "repair")),
              false,
              new Dither("tpdf", 1)));
      side.describeLayout(writer::container);
      long changed = 0;
      RangeWords words = new RangeWords(FORMAT);
      for (int i = 0; i < starts.length; i++) {
        changed += lengths[i];
        writer.edit(edit(i, words));
      }
      long thumps = Arrays.stream(stages).filter(s -> s == 1).count();
      writer.totals(
          new LedgerTotals(
              starts.length,
              Map.of("clicks", starts.length - thumps, "thumps", thumps),
              changed,
              0,
              facts(restored, after),
              null,
              List.of()));
      writer.seal();
    }
    return ledger;
  }

  private static FileFacts facts(Path file, String samples) throws IOException {
    try (SideReader side = SideFiles.open(file)) {
      return new FileFacts(
          file.getFileName().toString(),
          Files.size(file),
          Sha256.of(file),
          samples,
          side.frames(),
          FORMAT,
          "WAV");
    }
  }

  private LedgerEdit edit(int i, RangeWords words) {
    int n = lengths[i];
    long[] before = new long[n];
    long[] after = new long[n];
    for (int k = 0; k < n; k++) {
      after[k] = music(starts[i] + k, channels[i]);
      before[k] = after[k] + pulse(i, k);
    }
    byte[] original = words.bytes(before, 0, n);
    return new LedgerEdit(
        i + 1,
        STAGES[stages[i]],
        channels[i],
        starts[i],
        starts[i] + n,
        4 + margins[i],
        4,
        "lsar",
        40,
        starts[i],
        n,
        -70,
        words.digest(before, 0, n),
        words.digest(after, 0, n),
        original);
  }

  private String sound(Path file, boolean damaged) throws IOException {
    SampleDigest digest = new SampleDigest(FORMAT);
    long[][] words = new long[2][BLOCK];
    int next = 0;
    try (WavWriter out = WavWriter.create(file, FORMAT, frames, List.of(), null)) {
      for (long first = 0; first < frames; first += BLOCK) {
        int n = (int) Math.min(BLOCK, frames - first);
        for (int i = 0; i < n; i++) {
          words[0][i] = music(first + i, 0);
          words[1][i] = music(first + i, 1);
        }
        while (damaged && next < starts.length && starts[next] < first + n) {
          pulses(next++, first, n, words);
        }
        digest.update(words, 0, n);
        out.write(words, 0, n);
      }
    }
    return digest.hex();
  }

  private void pulses(int edit, long first, int count, long[][] words) {
    for (int k = 0; k < lengths[edit]; k++) {
      words[channels[edit]][(int) (starts[edit] + k - first)] += pulse(edit, k);
    }
  }

  private static long pulse(int edit, int k) {
    return ((k & 3) < 2 ? 1 : -1) * (1_200_000L - 20_000L * (k % 40)) + edit % 7 + 1;
  }

  private long music(long frame, int channel) {
    long swell = 200 + (frame / 600 + 50 * channel) % 800;
    long loud = swell < 600 ? swell : 1200 - swell;
    return tone[(int) (frame % RATE)] * loud / 600
        + noise[(int) ((frame * 31 + (frame >> 16) * 7919 + 17L * channel) & 0xffff)];
  }
}
