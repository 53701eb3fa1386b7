package org.groovemend.ledger;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.databind.JsonNode;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.LayoutPiece;

/**
 * Records to lines. Fields stand in the order of the format's description; no blank between them.
 */
final class RecordWriter {

  private final Line line = new Line();
  private final JsonGenerator json;
  private final Sha256 sha256 = new Sha256();

  RecordWriter() throws IOException {
    json = LedgerJson.FACTORY.createGenerator(line);
  }

  /** The bytes of a line without its end. Valid until the next one is made. */
  static final class Line extends ByteArrayOutputStream {
    byte[] array() {
      return buf;
    }

    /** The seal at the end of a closing line. */
    String seal() {
      int end = size() - "\"}".length();
      return new String(buf, end - 64, 64, StandardCharsets.US_ASCII);
    }
  }

  Line line(LedgerRecord record, String previous) throws IOException {
    line.reset();
    json.writeStartObject();
    json.writeStringField("record", RecordKind.of(record).key());
    json.writeStringField("previous", previous);
    if (record instanceof LedgerEdit edit) {
      edit(edit);
    } else if (record instanceof ContainerRecord container) {
      piece(container.piece());
    } else if (record instanceof AnalysisRecord analysis) {
      json.writeStringField("name", analysis.name());
      json.writeFieldName("result");
      map(analysis.result());
    } else if (record instanceof LedgerHeader header) {
      header(header);
    } else if (record instanceof LedgerTotals totals) {
      totals(totals);
    } else if (record instanceof LedgerClosing closing) {
      json.writeNumberField("records", closing.records());
    }
    json.writeEndObject();
    json.flush();
    if (record instanceof LedgerClosing) {
      seal();
    }
    return line;
  }

  /** The closing line and its seal: the digest is over all before {@code ,"seal":}. */
  private void seal() {
    int length = line.size() - 1;
    String seal = sha256.hex(line.array(), 0, length);
    byte[] end = (",\"seal\":\"" + seal + "\"}").getBytes(StandardCharsets.US_ASCII);
    byte[] start = line.toByteArray();
    line.reset();
    line.write(start, 0, length);
    line.write(end, 0, end.length);
  }

  private void edit(LedgerEdit edit) throws IOException {
    json.writeNumberField("number", edit.number());
    json.writeStringField("stage", edit.stage());
    json.writeNumberField("channel", edit.channel());
    json.writeNumberField("start", edit.start());
    json.writeNumberField("end", edit.end());
    number("statistic", edit.statistic());
    number("threshold", edit.threshold());
    json.writeStringField("method", edit.method());
    json.writeNumberField("modelOrder", edit.modelOrder());
    json.writeNumberField("gapStart", edit.gapStart());
    json.writeNumberField("gapFrames", edit.gapFrames());
    number("uncertaintyDbfs", edit.uncertaintyDbfs());
    json.writeStringField("before", edit.before());
    json.writeStringField("after", edit.after());
    json.writeBinaryField("original", edit.original());
  }

  private void piece(LayoutPiece piece) throws IOException {
    if (piece instanceof LayoutPiece.Bytes bytes) {
      json.writeStringField("piece", "bytes");
      json.writeBinaryField("content", bytes.content());
    } else if (piece instanceof LayoutPiece.PcmFrames pcm) {
      json.writeStringField("piece", "pcm-frames");
      json.writeNumberField("firstFrame", pcm.firstFrame());
      json.writeNumberField("frames", pcm.frames());
      json.writeBooleanField("bigEndian", pcm.bigEndian());
    } else if (piece instanceof LayoutPiece.FlacFrames flac) {
      json.writeStringField("piece", "flac-frames");
      json.writeNumberField("firstFrame", flac.firstFrame());
      json.writeNumberField("frames", flac.frames());
      json.writeBinaryField("recipe", flac.recipe());
    }
  }

  private void header(LedgerHeader header) throws IOException {
    json.writeStringField("format", LedgerHeader.FORMAT);
    json.writeNumberField("version", LedgerHeader.VERSION);
    json.writeStringField("tool", header.tool());
    json.writeStringField("toolVersion", header.toolVersion());
    json.writeStringField("createdUtc", header.createdUtc());
    json.writeObjectFieldStart("environment");
    json.writeStringField("javaVersion", header.environment().javaVersion());
    json.writeStringField("javaVendor", header.environment().javaVendor());
    json.writeStringField("os", header.environment().os());
    json.writeStringField("arch", header.environment().arch());
    json.writeEndObject();
    json.writeFieldName("original");
    facts(header.original());
    json.writeStringField("capturedThrough", header.capturedThrough());
    json.writeFieldName("treatment");
    map(header.treatment());
    json.writeArrayFieldStart("stages");
    for (AppliedStage stage : header.stages()) {
      json.writeStartObject();
      json.writeStringField("name", stage.name());
      json.writeStringField("kind", stage.kind());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeBooleanField("wholeSignal", header.wholeSignal());
    json.writeObjectFieldStart("dither");
    json.writeStringField("kind", header.dither().kind());
    json.writeNumberField("seed", header.dither().seed());
    json.writeEndObject();
    json.writeFieldName("parent");
    if (header.parent() == null) {
      json.writeNull();
    } else {
      parent(header.parent());
    }
  }

  private void parent(LedgerParent parent) throws IOException {
    json.writeStartObject();
    json.writeStringField("ledger", parent.ledger());
    json.writeStringField("seal", parent.seal());
    json.writeFieldName("decisions");
    if (parent.decisions() == null) {
      json.writeNull();
    } else {
      json.writeStartObject();
      json.writeStringField("name", parent.decisions());
      json.writeStringField("sha256", parent.decisionsSha256());
      json.writeEndObject();
    }
    json.writeNumberField("edits", parent.edits());
    json.writeNumberField("undone", parent.undone());
    json.writeNumberField("undoneInAll", parent.undoneInAll());
    json.writeEndObject();
  }

  private void totals(LedgerTotals totals) throws IOException {
    json.writeNumberField("edits", totals.edits());
    json.writeObjectFieldStart("editsByStage");
    for (Map.Entry<String, Long> stage : totals.editsByStage().entrySet()) {
      json.writeNumberField(stage.getKey(), stage.getValue());
    }
    json.writeEndObject();
    json.writeNumberField("changedSamples", totals.changedSamples());
    json.writeNumberField("clippedSamples", totals.clippedSamples());
    json.writeFieldName("restored");
    facts(totals.restored());
    json.writeFieldName("removed");
    if (totals.removed() == null) {
      json.writeNull();
    } else {
      facts(totals.removed());
    }
    json.writeArrayFieldStart("warnings");
    for (String warning : totals.warnings()) {
      json.writeString(warning);
    }
    json.writeEndArray();
  }

  private void facts(FileFacts facts) throws IOException {
    AudioFormat format = facts.format();
    json.writeStartObject();
    json.writeStringField("name", facts.name());
    json.writeNumberField("bytes", facts.bytes());
    json.writeStringField("sha256", facts.sha256());
    json.writeStringField("samplesSha256", facts.samplesSha256());
    json.writeNumberField("frames", facts.frames());
    json.writeNumberField("sampleRateHz", format.sampleRateHz());
    json.writeNumberField("channels", format.channels());
    json.writeStringField("coding", format.coding().name().toLowerCase(Locale.ROOT));
    json.writeNumberField("containerBits", format.containerBits());
    json.writeNumberField("significantBits", format.significantBits());
    json.writeStringField("container", facts.container());
    json.writeEndObject();
  }

  private void number(String name, double value) throws IOException {
    json.writeFieldName(name);
    number(value);
  }

  // JSON has no words for NaN and the infinities
  private void number(double value) throws IOException {
    if (Double.isFinite(value)) {
      json.writeNumber(value);
    } else {
      json.writeNull();
    }
  }

  private void map(Map<String, Object> map) throws IOException {
    JsonNode node = LedgerJson.MAPPER.valueToTree(map);
    value(node);
  }

  private void value(JsonNode node) throws IOException {
    switch (node.getNodeType()) {
      case OBJECT -> {
        json.writeStartObject();
        for (Map.Entry<String, JsonNode> field : node.properties()) {
          json.writeFieldName(field.getKey());
          value(field.getValue());
        }
        json.writeEndObject();
      }
      case ARRAY -> {
        json.writeStartArray();
        for (JsonNode element : node) {
          value(element);
        }
        json.writeEndArray();
      }
      case NUMBER -> {
        if (node.isIntegralNumber()) {
          json.writeNumber(node.bigIntegerValue());
        } else {
          number(node.doubleValue());
        }
      }
      case STRING -> json.writeString(node.textValue());
      case BINARY -> json.writeBinary(node.binaryValue());
      case BOOLEAN -> json.writeBoolean(node.booleanValue());
      default -> json.writeNull();
    }
  }
}
