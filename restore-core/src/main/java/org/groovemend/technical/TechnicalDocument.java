package org.groovemend.technical;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.ledger.FileFacts;
import org.groovemend.xml.XmlText;

/**
 * Writes technical metadata as XML. The same facts give the same bytes; there is no time of writing
 * in it.
 */
public final class TechnicalDocument {

  /** Ours; not that of AES57. */
  public static final String NAMESPACE = "urn:groovemend:technical-metadata:1";

  private final XmlText xml = new XmlText("technicalMetadata", NAMESPACE);

  private TechnicalDocument() {}

  /** The document for one or more files. */
  public static byte[] write(List<AudioObject> objects) {
    TechnicalDocument document = new TechnicalDocument();
    document.xml.attribute("version", "1");
    for (int i = 0; i < objects.size(); i++) {
      document.file(objects.get(i), i + 1);
      if (objects.get(i).discOrNull() != null) {
        document.disc(objects.get(i).discOrNull(), i + 1);
      }
    }
    return document.xml.finish();
  }

  private void file(AudioObject object, int number) {
    FileFacts file = object.file();
    AudioFormat format = file.format();
    xml.begin("audioObject");
    xml.attribute("ID", "file" + number);
    xml.attribute("analogDigitalFlag", "FILE_DIGITAL");
    xml.text("format", file.container());
    xml.text(
        "audioDataEncoding",
        format.coding() == SampleCoding.PCM ? "linear PCM, integer" : "linear PCM, IEEE float");
    if (!object.role().isBlank()) {
      xml.text("use", object.role());
    }
    xml.text("primaryIdentifier", file.name(), "identifierType", "FILE_NAME");
    xml.text("size", Long.toString(file.bytes()), "unit", "bytes");
    xml.text("checksum", file.sha256(), "algorithm", "SHA-256", "of", "file");
    xml.text("checksum", file.samplesSha256(), "algorithm", "SHA-256", "of", "samples");
    face(object, number);
    xml.begin("formatList");
    xml.begin("formatRegion");
    xml.attribute("ID", "format" + number);
    xml.text("bitDepth", Integer.toString(format.significantBits()));
    xml.text("sampleRate", Integer.toString(format.sampleRateHz()));
    xml.text("wordSize", Integer.toString(format.containerBits()));
    xml.text("soundField", format.channels() == 1 ? "MONO" : "STEREO");
    xml.end();
    xml.end();
    if (object.sourceOrNull() != null) {
      FileFacts source = object.sourceOrNull();
      xml.begin("source");
      xml.text("primaryIdentifier", source.name(), "identifierType", "FILE_NAME");
      xml.text("checksum", source.sha256(), "algorithm", "SHA-256", "of", "file");
      xml.end();
    }
    if (!object.history().isEmpty()) {
      xml.begin("processingHistory");
      for (String step : object.history()) {
        xml.text("step", step);
      }
      xml.end();
    }
    xml.end();
  }

  private void face(AudioObject object, int number) {
    FileFacts file = object.file();
    xml.begin("face");
    if (!object.face().isBlank()) {
      xml.attribute("label", object.face());
    }
    if (object.discOrNull() != null) {
      xml.attribute("discRef", "disc" + number);
    }
    timeline(0, file.frames(), file.format());
    List<Region> regions =
        object.regions().isEmpty() && file.frames() > 0
            ? List.of(new Region("", 0, file.frames()))
            : object.regions();
    for (Region region : regions) {
      xml.begin("region");
      xml.attribute("formatRef", "format" + number);
      if (!region.label().isBlank()) {
        xml.attribute("label", region.label());
      }
      timeline(region.firstFrame(), region.frames(), file.format());
      xml.text("numChannels", Integer.toString(file.format().channels()));
      xml.end();
    }
    xml.end();
  }

  private void timeline(long first, long frames, AudioFormat format) {
    xml.begin("timeline");
    xml.text("startTime", seconds(first, format), "samples", Long.toString(first));
    xml.text("duration", seconds(frames, format), "samples", Long.toString(frames));
    xml.end();
  }

  private static String seconds(long frames, AudioFormat format) {
    return String.format(Locale.ROOT, "%.6f", format.seconds(frames));
  }

  private void disc(Disc disc, int number) {
    xml.begin("audioObject");
    xml.attribute("ID", "disc" + number);
    xml.attribute("analogDigitalFlag", "ANALOG");
    xml.text("format", "disc");
    if (!disc.stated().isEmpty()) {
      xml.begin("physicalProperties");
      for (Map.Entry<DiscProperty, String> entry : disc.stated().entrySet()) {
        DiscProperty property = entry.getKey();
        if (property.unit() == null) {
          xml.text(property.element(), entry.getValue());
        } else {
          xml.text(property.element(), entry.getValue(), "unit", property.unit());
        }
      }
      xml.end();
    }
    xml.end();
  }
}
