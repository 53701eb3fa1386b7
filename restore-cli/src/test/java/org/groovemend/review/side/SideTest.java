package org.groovemend.review.side;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.FloatBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import javax.imageio.ImageIO;
import org.groovemend.audio.SideReader;
import org.groovemend.audio.Words;
import org.groovemend.audio.file.SideFiles;
import org.groovemend.chain.Progress;
import org.groovemend.ledger.Ledger;
import org.groovemend.ledger.LedgerEdit;
import org.groovemend.ledger.LedgerFiles;
import org.groovemend.ledger.VerificationException;
import org.groovemend.review.InventedLedger;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the page is given, compared with plain reading of the files. */
class SideTest {

  private static final int FRAMES = 7 * InventedLedger.RATE + 123;
  private static final int EDITS = 400;

  @TempDir static Path folder;
  private static Path original;
  private static Ledger ledger;
  private static ReviewSide side;
  private static double[][] before;
  private static double[][] after;

  @BeforeAll
  static void open() throws Exception {
    Path whole = Files.createDirectory(folder.resolve("whole"));
    Path alone = Files.createDirectory(folder.resolve("alone"));
    InventedLedger.write(whole, "side", FRAMES, EDITS, 5);
    original = whole.resolve("side.wav");
    for (String name : List.of("side.restored.wav", "side.ledger.jsonl")) {
      Files.copy(whole.resolve(name), alone.resolve(name));
    }
    ledger = Ledger.open(alone.resolve("side.ledger.jsonl"));
    side = open(ledger.path(), new LedgerFiles(null, null, null));
    before = doubles(original);
    after = doubles(whole.resolve("side.restored.wav"));
  }

  @AfterAll
  static void close() throws IOException {
    side.close();
  }

  private static ReviewSide open(Path ledger, LedgerFiles given) throws Exception {
    return ReviewSide.open(ledger, given, List.of(), Progress.SILENT);
  }

  private static double[][] doubles(Path file) throws IOException {
    try (SideReader reader = SideFiles.open(file)) {
      long[][] words = new long[2][FRAMES];
      reader.readWords(0, FRAMES, words, 0);
      double[][] out = new double[2][FRAMES];
      for (int c = 0; c < 2; c++) {
        Words.toDoubles(words[c], 0, out[c], 0, FRAMES, reader.format());
      }
      return out;
    }
  }

  private static SideScan scanned() {
    SideScan scan = new SideScan(side);
    scan.run();
    return scan;
  }

  @Test
  void theTransferThatIsNotThereIsPutTogetherAtAnyPlace() throws IOException {
    assertThat(side.rebuilt()).isTrue();
    Random random = new Random(1);
    for (int k = 0; k < 300; k++) {
      int first = random.nextInt(FRAMES - 1);
      int count = 1 + random.nextInt(Math.min(3000, FRAMES - first));
      long[][] words = new long[2][count + 3];
      side.with(
          sides -> {
            sides.before().readWords(first, count, words, 3);
            return null;
          });
      for (int c = 0; c < 2; c++) {
        for (int i = 0; i < count; i++) {
          assertThat(Words.toDouble(words[c][i + 3], side.format()))
              .isEqualTo(before[c][first + i]);
        }
      }
    }
  }

  @Test
  void columnsHoldWhatTheLedgerHolds() throws IOException {
    List<LedgerEdit> edits = new ArrayList<>();
    ledger.forEachEdit(edits::add);
    ByteBuffer columns = ByteBuffer.wrap(side.edits().columns()).order(ByteOrder.LITTLE_ENDIAN);
    assertThat(columns.remaining()).isEqualTo(30 * EDITS);
    for (int i = 0; i < EDITS; i++) {
      LedgerEdit edit = edits.get(i);
      assertThat(columns.getDouble(8 * i)).isEqualTo(edit.start());
      assertThat(columns.getInt(8 * EDITS + 4 * i)).isEqualTo((int) edit.frames());
      assertThat(columns.getFloat(12 * EDITS + 4 * i)).isEqualTo((float) edit.statistic());
      assertThat(columns.getFloat(20 * EDITS + 4 * i))
          .isEqualTo((float) (edit.statistic() - edit.threshold()));
      assertThat(columns.get(28 * EDITS + i)).isEqualTo((byte) edit.channel());
      assertThat(side.edits().stages().get(columns.get(29 * EDITS + i))).isEqualTo(edit.stage());
    }
    edits.sort(Comparator.comparingDouble(e -> e.statistic() - e.threshold()));
    for (int k = 0; k < EDITS; k++) {
      assertThat(columns.getInt(24 * EDITS + 4 * k) + 1L).isEqualTo(edits.get(k).number());
    }
  }

  @Test
  void scanProvesBothSides() {
    SideScan scan = scanned();
    assertThat(scan.state()).isEqualTo(SideScan.State.HOLDS);
    assertThat(scan.share()).isEqualTo(1);
  }

  @Test
  void aSampleThatWasAlteredIsNoticedByTheScan() throws Exception {
    Path altered = Files.createDirectory(folder.resolve("altered"));
    for (String name : List.of("side.restored.wav", "side.ledger.jsonl")) {
      Files.copy(ledger.path().resolveSibling(name), altered.resolve(name));
    }
    // between two edits
    byte[] bytes = Files.readAllBytes(altered.resolve("side.restored.wav"));
    int frame = (int) side.edits().start(7) - 1;
    bytes[44 + 6 * frame] ^= 1;
    Files.write(altered.resolve("side.restored.wav"), bytes);
    try (ReviewSide other =
        open(altered.resolve("side.ledger.jsonl"), new LedgerFiles(null, null, null))) {
      SideScan scan = new SideScan(other);
      scan.run();
      assertThat(scan.state()).isEqualTo(SideScan.State.DIFFERS);
      assertThat(scan.sentence()).contains("clean copy is not the one of this ledger");
    }
  }

  @Test
  void anotherSideOfTheSameLengthIsRefusedAtOnce() throws Exception {
    Path other = Files.createDirectory(folder.resolve("other"));
    InventedLedger.write(other, "other", FRAMES, EDITS, 6);
    assertThatThrownBy(
            () ->
                open(
                    ledger.path(),
                    new LedgerFiles(null, other.resolve("other.restored.wav"), null)))
        .isInstanceOf(VerificationException.class)
        .hasMessageContaining("The clean copy is not the one of this ledger")
        .hasMessageContaining("edit ");
    assertThatThrownBy(
            () -> open(ledger.path(), new LedgerFiles(other.resolve("other.wav"), null, null)))
        .isInstanceOf(VerificationException.class)
        .hasMessageContaining("The transfer is not the one of this ledger");
  }

  /** The slow obvious formula for every bin. */
  private static void assertTile(byte[] tile, int level, long number) {
    FloatBuffer floats = ByteBuffer.wrap(tile).order(ByteOrder.LITTLE_ENDIAN).asFloatBuffer();
    for (int c = 0; c < 2; c++) {
      for (int signal = 0; signal < 3; signal++) {
        for (int bin = 0; bin < WaveTiles.BINS; bin++) {
          long from = (number * WaveTiles.BINS + bin) << level;
          float low = Float.POSITIVE_INFINITY;
          float high = Float.NEGATIVE_INFINITY;
          for (long f = from; f < from + (1L << level) && f < FRAMES; f++) {
            double b = before[c][(int) f];
            double a = after[c][(int) f];
            float value = (float) (signal == 0 ? b : signal == 1 ? a : b - a);
            low = Math.min(low, value);
            high = Math.max(high, value);
          }
          if (from >= FRAMES) {
            assertThat(floats.get()).isNaN();
            assertThat(floats.get()).isNaN();
          } else {
            assertThat(floats.get()).isEqualTo(low, within(1e-7f));
            assertThat(floats.get()).isEqualTo(high, within(1e-7f));
          }
        }
      }
    }
  }

  @Test
  void tilesOfEveryLevelAreTheExtremesOfTheirFrames() throws IOException {
    WaveTiles tiles = scanned().tiles();
    for (int level = 0; level <= 14; level++) {
      long last = (FRAMES - 1 >> level) / WaveTiles.BINS;
      for (long number : new long[] {0, last / 2, last}) {
        assertTile(tiles.tile(level, number), level, number);
      }
    }
    assertThatThrownBy(() -> tiles.tile(0, FRAMES / WaveTiles.BINS + 1))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void whatIsNotReadYetIsToldAsUnknown() throws IOException {
    byte[] tile = new SideScan(side).tiles().tile(10, 0);
    assertThat(ByteBuffer.wrap(tile).order(ByteOrder.LITTLE_ENDIAN).getFloat(0)).isNaN();
  }

  @Test
  void peaksOfALongSideStayInBoundedMemory() {
    Peaks peaks = new Peaks(1, 24L * 3600 * 384_000);
    long bins = (24L * 3600 * 384_000 - 1 >> peaks.level()) + 1;
    assertThat(bins).isBetween((long) Peaks.MOST_BINS / 2, (long) Peaks.MOST_BINS);
  }

  @Test
  void spectrogramTilesHaveTheirSizeAndShowWhatDiffers() throws IOException {
    SpectrogramTiles tiles = new SpectrogramTiles(side);
    long number = (side.edits().start(0) >> 6) / SpectrogramTiles.COLUMNS;
    byte[] one = tiles.tile(false, 6, number);
    var image = ImageIO.read(new ByteArrayInputStream(one));
    assertThat(image.getWidth()).isEqualTo(SpectrogramTiles.COLUMNS);
    assertThat(image.getHeight()).isEqualTo(SpectrogramTiles.ROWS);
    assertThat(tiles.tile(true, 6, number)).isNotEqualTo(one);
    assertThat(tiles.tile(false, 6, number)).isSameAs(one);
  }

  @Test
  void neighbouringSpectrogramTilesMeetWithoutASeam() throws IOException {
    // the steady tone of 440 Hz: a window that stopped at the tile's edge would show there
    SpectrogramTiles tiles = new SpectrogramTiles(side);
    var left = ImageIO.read(new ByteArrayInputStream(tiles.tile(true, 5, 3)));
    var right = ImageIO.read(new ByteArrayInputStream(tiles.tile(true, 5, 4)));
    int same = 0;
    for (int y = 0; y < SpectrogramTiles.ROWS; y++) {
      int a = left.getRaster().getSample(SpectrogramTiles.COLUMNS - 1, y, 0);
      int b = right.getRaster().getSample(0, y, 0);
      same += Math.abs(a - b) <= 12 ? 1 : 0;
    }
    assertThat(same).isGreaterThan(SpectrogramTiles.ROWS * 9 / 10);
  }
}
