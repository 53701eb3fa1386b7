package org.groovemend.technical;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.ledger.FileFacts;

/**
 * Writes technical metadata as XML. The same facts give the same bytes; there is no time of writing
 * in it.
 *
 * <p>Characters that XML 1.0 cannot hold, and line ends, become spaces; halves of surrogate pairs
 * become question marks.
 */
public final class TechnicalDocument {

  /** Ours; not that of AES57. */
  public static final String NAMESPACE = "urn:groovemend:technical-metadata:1";

  private final XMLStreamWriter out;
  private int depth;

  private TechnicalDocument(XMLStreamWriter out) {
    this.out = out;
  }

  /** The document for one or more files. */
  public static byte[] write(List<AudioObject> objects) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try {
      XMLStreamWriter out =
          XMLOutputFactory.newDefaultFactory()
              .createXMLStreamWriter(bytes, StandardCharsets.UTF_8.name());
      new TechnicalDocument(out).document(objects);
      out.close();
    } catch (XMLStreamException e) {
      throw new IllegalStateException("memory does not fail", e);
    }
    return bytes.toByteArray();
  }

  private void document(List<AudioObject> objects) throws XMLStreamException {
    out.writeStartDocument(StandardCharsets.UTF_8.name(), "1.0");
    begin("technicalMetadata");
    out.writeDefaultNamespace(NAMESPACE);
    out.writeAttribute("version", "1");
    for (int i = 0; i < objects.size(); i++) {
      file(objects.get(i), i + 1);
      if (objects.get(i).discOrNull() != null) {
        disc(objects.get(i).discOrNull(), i + 1);
      }
    }
    end();
    out.writeCharacters("\n");
    out.writeEndDocument();
  }

  private void file(AudioObject object, int number) throws XMLStreamException {
    FileFacts file = object.file();
    AudioFormat format = file.format();
    begin("audioObject");
    out.writeAttribute("ID", "file" + number);
    out.writeAttribute("analogDigitalFlag", "FILE_DIGITAL");
    text("format", file.container());
    text(
        "audioDataEncoding",
        format.coding() == SampleCoding.PCM ? "linear PCM, integer" : "linear PCM, IEEE float");
    if (!object.role().isBlank()) {
      text("use", object.role());
    }
    text("primaryIdentifier", file.name(), "identifierType", "FILE_NAME");
    text("size", Long.toString(file.bytes()), "unit", "bytes");
    text("checksum", file.sha256(), "algorithm", "SHA-256", "of", "file");
    text("checksum", file.samplesSha256(), "algorithm", "SHA-256", "of", "samples");
    face(object, number);
    begin("formatList");
    begin("formatRegion");
    out.writeAttribute("ID", "format" + number);
    text("bitDepth", Integer.toString(format.significantBits()));
    text("sampleRate", Integer.toString(format.sampleRateHz()));
    text("wordSize", Integer.toString(format.containerBits()));
    text("soundField", format.channels() == 1 ? "MONO" : "STEREO");
    end();
    end();
    if (object.sourceOrNull() != null) {
      FileFacts source = object.sourceOrNull();
      begin("source");
      text("primaryIdentifier", source.name(), "identifierType", "FILE_NAME");
      text("checksum", source.sha256(), "algorithm", "SHA-256", "of", "file");
      end();
    }
    if (!object.history().isEmpty()) {
      begin("processingHistory");
      for (String step : object.history()) {
        text("step", step);
      }
      end();
    }
    end();
  }

  private void face(AudioObject object, int number) throws XMLStreamException {
    FileFacts file = object.file();
    begin("face");
    if (!object.face().isBlank()) {
      out.writeAttribute("label", clean(object.face()));
    }
    if (object.discOrNull() != null) {
      out.writeAttribute("discRef", "disc" + number);
    }
    timeline(0, file.frames(), file.format());
    List<Region> regions =
        object.regions().isEmpty() && file.frames() > 0
            ? List.of(new Region("", 0, file.frames()))
            : object.regions();
    for (Region region : regions) {
      begin("region");
      out.writeAttribute("formatRef", "format" + number);
      if (!region.label().isBlank()) {
        out.writeAttribute("label", clean(region.label()));
      }
      timeline(region.firstFrame(), region.frames(), file.format());
      text("numChannels", Integer.toString(file.format().channels()));
      end();
    }
    end();
  }

  private void timeline(long first, long frames, AudioFormat format) throws XMLStreamException {
    begin("timeline");
    text("startTime", seconds(first, format), "samples", Long.toString(first));
    text("duration", seconds(frames, format), "samples", Long.toString(frames));
    end();
  }

  private static String seconds(long frames, AudioFormat format) {
    return String.format(Locale.ROOT, "%.6f", format.seconds(frames));
  }

  private void disc(Disc disc, int number) throws XMLStreamException {
    begin("audioObject");
    out.writeAttribute("ID", "disc" + number);
    out.writeAttribute("analogDigitalFlag", "ANALOG");
    text("format", "disc");
    if (!disc.stated().isEmpty()) {
      begin("physicalProperties");
      for (Map.Entry<DiscProperty, String> entry : disc.stated().entrySet()) {
        DiscProperty property = entry.getKey();
        if (property.unit() == null) {
          text(property.element(), entry.getValue());
        } else {
          text(property.element(), entry.getValue(), "unit", property.unit());
        }
      }
      end();
    }
    end();
  }

  private void begin(String element) throws XMLStreamException {
    newLine();
    out.writeStartElement(element);
    depth++;
  }

  private void end() throws XMLStreamException {
    depth--;
    newLine();
    out.writeEndElement();
  }

  private void newLine() throws XMLStreamException {
    out.writeCharacters("\n" + "  ".repeat(depth));
  }

  /** An element with attributes, names and values in turn. */
  private void text(String element, String text, String... attributes) throws XMLStreamException {
    newLine();
    out.writeStartElement(element);
    for (int i = 0; i < attributes.length; i += 2) {
      out.writeAttribute(attributes[i], attributes[i + 1]);
    }
    out.writeCharacters(clean(text));
    out.writeEndElement();
  }

  /** Only characters of XML 1.0 (section 2.2), without line ends, which readers change. */
  private static String clean(String text) {
    StringBuilder clean = new StringBuilder();
    text.codePoints()
        .forEach(
            c -> {
              if (c >= 0xd800 && c <= 0xdfff) {
                clean.append('?');
              } else if (Character.isISOControl(c) || c == 0xfffe || c == 0xffff) {
                clean.append(' ');
              } else {
                clean.appendCodePoint(c);
              }
            });
    return clean.toString();
  }
}
