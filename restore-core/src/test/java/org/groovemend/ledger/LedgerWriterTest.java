package org.groovemend.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.LayoutPiece;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

class LedgerWriterTest {

  private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
  private LedgerWriter writer;
  private TreatedSide side;

  @BeforeEach
  void open() throws IOException {
    writer = new LedgerWriter(bytes);
    for (long seed = 1; side == null || side.edits.size() < 5; seed++) {
      side = new TreatedSide(new Random(seed), AudioFormat.pcm(48_000, 2, 16), 500, false);
    }
  }

  private void headAndContainer() throws IOException {
    writer.header(side.header());
    for (LayoutPiece piece : side.layout) {
      writer.container(piece);
    }
  }

  @Test
  void recordsOutOfOrderAreRefused() throws IOException {
    LedgerEdit first = side.edits.get(0);
    assertThatThrownBy(() -> writer.edit(first))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("begin a ledger");
    assertThatThrownBy(writer::seal).isInstanceOf(IllegalStateException.class);
    writer.header(side.header());
    assertThatThrownBy(() -> writer.header(side.header()))
        .isInstanceOf(IllegalStateException.class);
    assertThatThrownBy(() -> writer.edit(first)).isInstanceOf(IllegalStateException.class);
    for (LayoutPiece piece : side.layout) {
      writer.container(piece);
    }
    writer.edit(first);
    assertThatThrownBy(() -> writer.analysis("late", Map.of()))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("\"analysis\" cannot follow a record \"edit\"");
    assertThatThrownBy(() -> writer.container(side.layout.get(0)))
        .isInstanceOf(IllegalStateException.class);
    assertThatThrownBy(writer::seal).isInstanceOf(IllegalStateException.class);
  }

  @Test
  void editsOutOfOrderOrOutsideTheSideAreRefused() throws IOException {
    headAndContainer();
    LedgerEdit second = side.edits.get(1);
    assertThatThrownBy(() -> writer.edit(second))
        .hasMessageContaining("edit 2 stands where edit 1 is due");
    writer.edit(side.edits.get(0));
    writer.edit(second);
    LedgerEdit back = at(3, 0, 0, 1);
    if (second.start() > 0 || second.channel() > 0) {
      assertThatThrownBy(() -> writer.edit(back))
          .hasMessageContaining("must not follow one at frame");
    }
    assertThatThrownBy(() -> writer.edit(at(3, 1, 499, 501)))
        .hasMessageContaining("outside the side");
    AudioFormat wider = AudioFormat.pcm(48_000, 2, 24);
    assertThatThrownBy(() -> writer.edit(at(wider, 3, 1, 498, 499)))
        .hasMessageContaining("words of 2 bytes");
  }

  private static LedgerEdit at(long number, int channel, long start, long end) {
    return at(AudioFormat.pcm(48_000, 2, 16), number, channel, start, end);
  }

  private static LedgerEdit at(AudioFormat format, long number, int channel, long start, long end) {
    RangeWords words = new RangeWords(format);
    long[] silence = new long[(int) (end - start)];
    String digest = words.digest(silence, 0, silence.length);
    return new LedgerEdit(
        number,
        "clicks",
        channel,
        start,
        end,
        9.5,
        4.5,
        "lsar",
        32,
        start,
        end - start,
        Double.NaN,
        digest,
        digest,
        words.bytes(silence, 0, silence.length));
  }

  @Test
  void totalsThatDoNotAddUpAreRefused() throws IOException {
    headAndContainer();
    assertThatThrownBy(() -> writer.totals(side.totals()))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("the ledger holds 0");
    for (LedgerEdit edit : side.edits) {
      writer.edit(edit);
    }
    writer.totals(side.totals());
    assertThat(writer.seal()).matches("[0-9a-f]{64}");
    assertThatThrownBy(writer::seal).isInstanceOf(IllegalStateException.class);
  }

  @Test
  void aLayoutWithAHoleIsRefused() throws IOException {
    writer.header(side.header());
    writer.container(new LayoutPiece.PcmFrames(0, 100, false));
    assertThatThrownBy(() -> writer.container(new LayoutPiece.PcmFrames(101, 10, false)))
        .hasMessageContaining("expected from 100");
    assertThatThrownBy(() -> writer.totals(side.totals()))
        .hasMessageContaining("100 of 500 frames");
  }

  @Test
  void theSealIsTheOneInTheFile() throws IOException {
    headAndContainer();
    for (LedgerEdit edit : side.edits) {
      writer.edit(edit);
    }
    writer.totals(side.totals());
    String seal = writer.seal();
    writer.close();
    assertThat(bytes.toString(StandardCharsets.UTF_8)).endsWith(",\"seal\":\"" + seal + "\"}\n");
  }

  private record Found(
      double level, float ratio, List<Integer> places, Map<String, Object> more, Boolean sure) {}

  @Test
  void resultsMayBeRecordsWithAnythingThatIsAJsonValue() throws IOException {
    headAndContainer();
    Map<String, Object> more = new HashMap<>();
    for (int i = 20; i > 0; i--) {
      more.put("key" + i, i);
    }
    more.put("text", "Gänge \"<\" \u0001 \uD83C\uDFB5");
    more.put("infinite", Double.POSITIVE_INFINITY);
    writer.analysis("probe", new Found(Double.NaN, 0.5f, List.of(3, 1), more, null));
    for (LedgerEdit edit : side.edits) {
      writer.edit(edit);
    }
    writer.totals(side.totals());
    writer.seal();
    AnalysisRecord read = null;
    LedgerReader reader = new LedgerReader(new ByteArrayInputStream(bytes.toByteArray()));
    for (LedgerRecord r = reader.next(); r != null; r = reader.next()) {
      read = r instanceof AnalysisRecord a ? a : read;
    }
    assertThat(read.name()).isEqualTo("probe");
    assertThat(read.result()).containsEntry("ratio", 0.5).containsEntry("places", List.of(3L, 1L));
    assertThat(read.result().get("level")).isNull();
    assertThat(read.result().get("sure")).isNull();
    @SuppressWarnings("unchecked")
    Map<String, Object> back = (Map<String, Object>) read.result().get("more");
    assertThat(List.copyOf(back.keySet())).isSorted();
    assertThat(back.get("text")).isEqualTo("Gänge \"<\" \u0001 \uD83C\uDFB5");
    assertThat(back.get("infinite")).isNull();
    assertThat(back.get("key7")).isEqualTo(7L);
    assertThatThrownBy(
            () -> new LedgerWriter(new ByteArrayOutputStream()).analysis("list", List.of(1)))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void aVeryLongEditIsKept() throws Exception {
    int frames = 100_000;
    byte[] noise = new byte[frames * Double.BYTES];
    new Random(3).nextBytes(noise);
    String digest = Sha256.of(noise);
    LedgerEdit edit =
        new LedgerEdit(
            1,
            "thumps",
            0,
            0,
            frames,
            1,
            1,
            "subtract",
            0,
            0,
            frames,
            Double.NaN,
            digest,
            digest,
            noise);
    byte[] line = line(edit);
    assertThat(line.length).isGreaterThan(1_000_000);
    LedgerRecord read = RecordReader.read(RecordKind.EDIT, line, line.length);
    assertThat(read).isEqualTo(edit);
  }

  private static byte[] line(LedgerRecord record) throws IOException {
    RecordWriter.Line line = new RecordWriter().line(record, LedgerJson.NO_PREVIOUS);
    return Arrays.copyOf(line.array(), line.size());
  }
}
