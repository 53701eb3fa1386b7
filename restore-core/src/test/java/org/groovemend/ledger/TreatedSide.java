package org.groovemend.ledger;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.LayoutPiece;
import org.groovemend.audio.SampleDigest;
import org.groovemend.audio.Words;

/**
 * A random side that was treated, and its ledger: words, layout and edits are drawn from the seed.
 */
final class TreatedSide {

  private static final AudioFormat[] FORMATS = {
    AudioFormat.pcm(44_100, 1, 16),
    AudioFormat.pcm(48_000, 2, 16),
    AudioFormat.pcm(96_000, 2, 24),
    AudioFormat.pcm(96_000, 1, 32),
    AudioFormat.ieeeFloat(96_000, 2, 32),
    AudioFormat.ieeeFloat(48_000, 1, 64),
    AudioFormat.ieeeFloat(44_100, 2, 64),
  };

  final AudioFormat format;
  final boolean wholeSignal;
  final long[][] original;
  final long[][] restored;
  final long[][] removed;
  final List<LayoutPiece> layout = new ArrayList<>();
  final List<LedgerEdit> edits = new ArrayList<>();
  final byte[] file;
  final FileFacts originalFacts;
  private final Random random;

  TreatedSide(long seed) throws IOException {
    this(seed, new Random(seed));
  }

  private TreatedSide(long seed, Random random) throws IOException {
    this(
        random,
        FORMATS[(int) Math.floorMod(seed, (long) FORMATS.length)],
        random.nextInt(2000),
        random.nextBoolean());
  }

  TreatedSide(Random random, AudioFormat format, int frames, boolean wholeSignal)
      throws IOException {
    this.random = random;
    this.format = format;
    this.wholeSignal = wholeSignal;
    original = randomWords(format.channels(), frames);
    restored = new long[format.channels()][];
    for (int c = 0; c < original.length; c++) {
      restored[c] = wholeSignal ? randomWords(1, frames)[0] : original[c].clone();
    }
    List<int[]> ranges = randomRanges(frames);
    for (int[] r : ranges) {
      for (int i = r[1]; i < r[2]; i++) {
        restored[r[0]][i] = randomWord();
      }
    }
    drawEdits(ranges);
    removed = difference();
    drawLayout(frames);
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    PlainRebuilder rebuilder =
        new PlainRebuilder(new ArraySide(Path.of("original"), format, original), bytes);
    for (LayoutPiece piece : layout) {
      rebuilder.accept(piece);
    }
    file = bytes.toByteArray();
    originalFacts = facts("side.wav", format, original, file);
  }

  private long randomWord() {
    return Words.signExtend(random.nextLong(), format.containerBits());
  }

  private long[][] randomWords(int channels, int frames) {
    long[][] words = new long[channels][frames];
    for (long[] channel : words) {
      for (int i = 0; i < frames; i++) {
        channel[i] = randomWord();
      }
    }
    return words;
  }

  /** Channel, start, end; some overlap, some are single frames. */
  private List<int[]> randomRanges(int frames) {
    List<int[]> ranges = new ArrayList<>();
    int count = frames == 0 ? 0 : random.nextInt(12);
    for (int i = 0; i < count; i++) {
      int start = random.nextInt(frames);
      int length = 1 + random.nextInt(Math.min(random.nextBoolean() ? 400 : 3, frames - start));
      ranges.add(new int[] {random.nextInt(format.channels()), start, start + length});
    }
    ranges.sort(Comparator.<int[]>comparingInt(r -> r[1]).thenComparingInt(r -> r[0]));
    return ranges;
  }

  private void drawEdits(List<int[]> ranges) {
    RangeWords words = new RangeWords(format);
    for (int[] r : ranges) {
      int count = r[2] - r[1];
      edits.add(
          new LedgerEdit(
              edits.size() + 1,
              random.nextBoolean() ? "clicks" : "crackle",
              r[0],
              r[1],
              r[2],
              random.nextGaussian(),
              random.nextInt(10) == 0 ? Double.NaN : 4.5,
              "lsar",
              random.nextInt(100),
              r[1],
              count,
              -60 * random.nextDouble(),
              words.digest(original[r[0]], r[1], count),
              words.digest(restored[r[0]], r[1], count),
              words.bytes(original[r[0]], r[1], count)));
    }
  }

  private long[][] difference() {
    int bits = format.containerBits();
    boolean split = bits == 64;
    long[][] difference = new long[format.channels()][];
    for (int c = 0; c < difference.length; c++) {
      int frames = original[c].length;
      long[] wide = new long[frames];
      for (int i = 0; i < frames; i++) {
        wide[i] = Words.minus(original[c][i], restored[c][i], bits);
      }
      difference[c] = wide;
      if (split) {
        difference[c] = new long[2 * frames];
        SplitWords.split(wide, 0, frames, difference[c], 0);
      }
    }
    return difference;
  }

  /** Bytes of any length before, between and behind one to four pieces of samples. */
  private void drawLayout(int frames) {
    int pieces = 1 + random.nextInt(4);
    boolean bigEndian = random.nextBoolean();
    long done = 0;
    for (int i = 0; i < pieces; i++) {
      byte[] junk = new byte[random.nextInt(100)];
      random.nextBytes(junk);
      layout.add(new LayoutPiece.Bytes(junk));
      long n = i == pieces - 1 ? frames - done : random.nextInt((int) (frames - done) + 1);
      layout.add(new LayoutPiece.PcmFrames(done, n, bigEndian));
      done += n;
    }
    layout.add(new LayoutPiece.Bytes(new byte[] {1, 2, 3}));
  }

  AudioFormat removedFormat() {
    return AudioFormat.pcm(
        format.sampleRateHz(), format.channels(), Math.min(32, format.containerBits()));
  }

  ArraySide restoredSide() {
    return new ArraySide(Path.of("restored"), format, restored);
  }

  ArraySide removedSide() {
    return new ArraySide(Path.of("removed"), removedFormat(), removed);
  }

  static FileFacts facts(String name, AudioFormat format, long[][] words, byte[] file) {
    SampleDigest digest = new SampleDigest(format);
    digest.update(words, 0, words[0].length);
    return new FileFacts(
        name, file.length, Sha256.of(file), digest.hex(), words[0].length, format, "WAV");
  }

  long changedSamples() {
    long changed = 0;
    for (int c = 0; c < original.length; c++) {
      for (int i = 0; i < original[c].length; i++) {
        changed += original[c][i] == restored[c][i] ? 0 : 1;
      }
    }
    return changed;
  }

  /** The bytes of a file that holds nothing but words. */
  static byte[] bare(AudioFormat format, long[][] words) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try {
      new PlainRebuilder(new ArraySide(Path.of("bare"), format, words), bytes)
          .accept(new LayoutPiece.PcmFrames(0, words[0].length, false));
    } catch (IOException e) {
      throw new AssertionError("memory does not fail", e);
    }
    return bytes.toByteArray();
  }

  LedgerHeader header() {
    List<AppliedStage> stages = new ArrayList<>();
    stages.add(new AppliedStage("clicks", AppliedStage.REPAIR));
    stages.add(new AppliedStage("crackle", AppliedStage.REPAIR));
    if (wholeSignal) {
      stages.add(new AppliedStage("noise", AppliedStage.SIGNAL));
    }
    return new LedgerHeader(
        "groovemend",
        "0.1.0",
        "2026-03-01T12:00:00Z",
        new Environment("17", "vendor", "os", "arch"),
        originalFacts,
        "unknown",
        Map.of("clicks", Map.of("falseAlarmsPerMinute", 0.5, "modelOrder", 32L)),
        stages,
        wholeSignal,
        new Dither("tpdf", 12345));
  }

  LedgerTotals totals() {
    Map<String, Long> byStage = new TreeMap<>();
    edits.forEach(edit -> byStage.merge(edit.stage(), 1L, Long::sum));
    byStage.putIfAbsent("noise", 0L);
    return new LedgerTotals(
        edits.size(),
        byStage,
        changedSamples(),
        0,
        facts("side.restored.wav", format, restored, bare(format, restored)),
        wholeSignal
            ? facts("side.removed.flac", removedFormat(), removed, bare(removedFormat(), removed))
            : null,
        List.of("2 samples were at full scale."));
  }

  byte[] ledger() throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (LedgerWriter writer = new LedgerWriter(bytes)) {
      writer.header(header());
      for (LayoutPiece piece : layout) {
        writer.container(piece);
      }
      writer.analysis("lead-in", Map.of("startFrame", 10, "endFrame", 90, "noiseDbfs", Double.NaN));
      for (LedgerEdit edit : edits) {
        writer.edit(edit);
      }
      writer.totals(totals());
      writer.seal();
    }
    return bytes.toByteArray();
  }

  /** Writes ledger and all files into a folder; the ledger's path. */
  Path writeTo(Path folder) throws IOException {
    Files.write(folder.resolve("side.wav"), file);
    Files.write(folder.resolve("side.restored.wav"), bare(format, restored));
    if (wholeSignal) {
      Files.write(folder.resolve("side.removed.flac"), bare(removedFormat(), removed));
    }
    return Files.write(folder.resolve("side.ledger.jsonl"), ledger());
  }
}
