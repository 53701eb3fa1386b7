package org.groovemend.ledger;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.LayoutPiece;
import org.groovemend.audio.SampleCoding;
import org.groovemend.ledger.RecordFields.WrongFieldException;

/** Lines to records. */
final class RecordReader {

  private RecordReader() {}

  static LedgerRecord read(RecordKind kind, byte[] line, int length)
      throws IOException, WrongFieldException {
    try (JsonParser json = LedgerJson.FACTORY.createParser(line, 0, length)) {
      RecordFields fields = new RecordFields(json);
      fields.begin();
      fields.text("record");
      fields.text("previous");
      LedgerRecord record =
          switch (kind) {
            case HEADER -> header(fields);
            case CONTAINER -> new ContainerRecord(piece(fields));
            case ANALYSIS -> new AnalysisRecord(fields.text("name"), fields.map("result"));
            case EDIT -> edit(fields);
            case TOTALS -> totals(fields);
            case CLOSING -> new LedgerClosing(fields.integer("records"), fields.text("seal"));
          };
      fields.end();
      fields.endOfLine();
      return record;
    } catch (JsonProcessingException e) {
      throw notJson(e);
    } catch (IllegalArgumentException e) {
      throw new WrongFieldException(e.getMessage());
    }
  }

  /** The version of a header line; the fields after it may be unknown. */
  static long version(byte[] line, int length) throws IOException, WrongFieldException {
    try (JsonParser json = LedgerJson.FACTORY.createParser(line, 0, length)) {
      RecordFields fields = new RecordFields(json);
      fields.begin();
      fields.text("record");
      fields.text("previous");
      return version(fields);
    } catch (JsonProcessingException e) {
      throw notJson(e);
    }
  }

  private static WrongFieldException notJson(JsonProcessingException e) {
    return new WrongFieldException("it is not valid JSON: " + e.getOriginalMessage());
  }

  private static long version(RecordFields fields) throws IOException, WrongFieldException {
    String format = fields.text("format");
    if (!LedgerHeader.FORMAT.equals(format)) {
      throw new WrongFieldException(
          "the format is \"" + format + "\", not \"" + LedgerHeader.FORMAT + "\"");
    }
    long version = fields.integer("version");
    if (version < 1) {
      throw new WrongFieldException("there is no format version " + version);
    }
    return version;
  }

  private static LedgerHeader header(RecordFields fields) throws IOException, WrongFieldException {
    long version = version(fields);
    String tool = fields.text("tool");
    String toolVersion = fields.text("toolVersion");
    String createdUtc = fields.text("createdUtc");
    fields.begin("environment");
    Environment environment =
        new Environment(
            fields.text("javaVersion"),
            fields.text("javaVendor"),
            fields.text("os"),
            fields.text("arch"));
    fields.end();
    fields.begin("original");
    FileFacts original = facts(fields);
    String capturedThrough = fields.text("capturedThrough");
    Map<String, Object> treatment = fields.map("treatment");
    List<AppliedStage> stages = new ArrayList<>();
    fields.beginArray("stages");
    while (fields.nextObject()) {
      stages.add(new AppliedStage(fields.text("name"), fields.text("kind")));
      fields.end();
    }
    boolean wholeSignal = fields.truth("wholeSignal");
    fields.begin("dither");
    Dither dither = new Dither(fields.text("kind"), fields.integer("seed"));
    fields.end();
    LedgerParent parent =
        version >= LedgerHeader.VERSION_WITH_PARENT && fields.beginUnlessNull("parent")
            ? parent(fields)
            : null;
    return new LedgerHeader(
        tool,
        toolVersion,
        createdUtc,
        environment,
        original,
        capturedThrough,
        treatment,
        stages,
        wholeSignal,
        dither,
        parent);
  }

  private static LedgerParent parent(RecordFields fields) throws IOException, WrongFieldException {
    String ledger = fields.text("ledger");
    String seal = fields.text("seal");
    String decisions = null;
    String sha256 = null;
    if (fields.beginUnlessNull("decisions")) {
      decisions = fields.text("name");
      sha256 = fields.text("sha256");
      fields.end();
    }
    LedgerParent parent =
        new LedgerParent(
            ledger,
            seal,
            decisions,
            sha256,
            fields.integer("edits"),
            fields.integer("undone"),
            fields.integer("undoneInAll"));
    fields.end();
    return parent;
  }

  private static FileFacts facts(RecordFields fields) throws IOException, WrongFieldException {
    String name = fields.text("name");
    long bytes = fields.integer("bytes");
    String sha256 = fields.text("sha256");
    String samplesSha256 = fields.text("samplesSha256");
    long frames = fields.integer("frames");
    int rate = fields.smallInteger("sampleRateHz");
    int channels = fields.smallInteger("channels");
    String codingKey = fields.text("coding");
    SampleCoding coding =
        switch (codingKey) {
          case "pcm" -> SampleCoding.PCM;
          case "float" -> SampleCoding.FLOAT;
          default ->
              throw new WrongFieldException("coding \"" + codingKey + "\" is not pcm or float");
        };
    AudioFormat format =
        new AudioFormat(
            rate,
            channels,
            coding,
            fields.smallInteger("containerBits"),
            fields.smallInteger("significantBits"));
    String container = fields.text("container");
    fields.end();
    return new FileFacts(name, bytes, sha256, samplesSha256, frames, format, container);
  }

  private static LayoutPiece piece(RecordFields fields) throws IOException, WrongFieldException {
    String piece = fields.text("piece");
    return switch (piece) {
      case "bytes" -> new LayoutPiece.Bytes(fields.bytes("content"));
      case "pcm-frames" ->
          new LayoutPiece.PcmFrames(
              fields.integer("firstFrame"), fields.integer("frames"), fields.truth("bigEndian"));
      case "flac-frames" ->
          new LayoutPiece.FlacFrames(
              fields.integer("firstFrame"), fields.smallInteger("frames"), fields.bytes("recipe"));
      default -> throw new WrongFieldException("there is no piece \"" + piece + "\"");
    };
  }

  private static LedgerEdit edit(RecordFields fields) throws IOException, WrongFieldException {
    return new LedgerEdit(
        fields.integer("number"),
        fields.text("stage"),
        fields.smallInteger("channel"),
        fields.integer("start"),
        fields.integer("end"),
        fields.number("statistic"),
        fields.number("threshold"),
        fields.text("method"),
        fields.smallInteger("modelOrder"),
        fields.integer("gapStart"),
        fields.integer("gapFrames"),
        fields.number("uncertaintyDbfs"),
        fields.text("before"),
        fields.text("after"),
        fields.bytes("original"));
  }

  private static LedgerTotals totals(RecordFields fields) throws IOException, WrongFieldException {
    long edits = fields.integer("edits");
    Map<String, Long> byStage = new TreeMap<>();
    fields.begin("editsByStage");
    for (String name = fields.nextName(); name != null; name = fields.nextName()) {
      byStage.put(name, fields.valueOf(name));
    }
    long changed = fields.integer("changedSamples");
    long clipped = fields.integer("clippedSamples");
    fields.begin("restored");
    FileFacts restored = facts(fields);
    FileFacts removed = fields.beginUnlessNull("removed") ? facts(fields) : null;
    List<String> warnings = new ArrayList<>();
    fields.beginArray("warnings");
    for (String warning = fields.nextText(); warning != null; warning = fields.nextText()) {
      warnings.add(warning);
    }
    return new LedgerTotals(edits, byStage, changed, clipped, restored, removed, warnings);
  }
}
