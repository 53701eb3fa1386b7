package org.groovemend.technical;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.transform.stream.StreamSource;
import javax.xml.validation.Schema;
import javax.xml.validation.SchemaFactory;
import javax.xml.xpath.XPathFactory;
import org.groovemend.audio.AudioFormat;
import org.groovemend.audio.SampleCoding;
import org.groovemend.audio.flac.Tool;
import org.groovemend.ledger.FileFacts;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.xml.sax.SAXParseException;

/** Well formed, valid after our own schema, and what is in it read back by XPath. */
class TechnicalDocumentTest {

  private static final Path SCHEMA = Path.of("../docs/reference/technical-metadata.xsd");
  private static final FileFacts FILE =
      facts("side.wav", new AudioFormat(96_000, 2, SampleCoding.PCM, 24, 20), 960_001);
  private static final FileFacts ORIGINAL =
      facts("transfer & <\"ž\">.flac", AudioFormat.pcm(96_000, 2, 24), 960_001);

  @TempDir private Path dir;

  private static FileFacts facts(String name, AudioFormat format, long frames) {
    return new FileFacts(
        name, 5_760_100, "ab".repeat(32), "cd".repeat(32), frames, format, "WAV (extensible)");
  }

  private static AudioObject full() {
    return new AudioObject(
        FILE,
        "service copy",
        "A",
        List.of(new Region("First \u0007 & last", 0, 480_000), new Region("", 480_000, 480_001)),
        new Disc(
            Map.of(
                DiscProperty.SPEED, "78.26",
                DiscProperty.DIAMETER, "25",
                DiscProperty.GROOVE, "coarse",
                DiscProperty.MATERIAL, "shellac",
                DiscProperty.STYLUS_RADIUS, "63.5",
                DiscProperty.CURVE, "none: acoustic recording",
                DiscProperty.CONDITION, "  ")),
        ORIGINAL,
        List.of("A=PCM,F=96000,W=24,M=stereo,T=x", "second\nstep"));
  }

  private static Document parse(byte[] xml) throws Exception {
    DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
    factory.setNamespaceAware(true);
    factory.setFeature(XMLConstants.FEATURE_SECURE_PROCESSING, true);
    return factory.newDocumentBuilder().parse(new ByteArrayInputStream(xml));
  }

  private static String at(byte[] xml, String path) throws Exception {
    return XPathFactory.newInstance()
        .newXPath()
        .evaluate(path.replaceAll("/([A-Za-z]+)", "/*[local-name()='$1']"), parse(xml));
  }

  private static void validate(byte[] xml) throws Exception {
    Schema schema =
        SchemaFactory.newInstance(XMLConstants.W3C_XML_SCHEMA_NS_URI).newSchema(SCHEMA.toFile());
    schema.newValidator().validate(new StreamSource(new ByteArrayInputStream(xml)));
  }

  @Test
  void whatIsKnownIsWritten() throws Exception {
    byte[] xml = TechnicalDocument.write(List.of(full()));
    validate(xml);
    String file = "/technicalMetadata/audioObject[1]";
    assertThat(at(xml, file + "/format")).isEqualTo("WAV (extensible)");
    assertThat(at(xml, file + "/use")).isEqualTo("service copy");
    assertThat(at(xml, file + "/primaryIdentifier")).isEqualTo("side.wav");
    assertThat(at(xml, file + "/checksum[@of='samples']")).isEqualTo("cd".repeat(32));
    assertThat(at(xml, file + "/face/@label")).isEqualTo("A");
    assertThat(at(xml, file + "/face/timeline/duration")).isEqualTo("10.000010");
    assertThat(at(xml, file + "/face/timeline/duration/@samples")).isEqualTo("960001");
    assertThat(at(xml, file + "/face/region[1]/@label")).isEqualTo("First   & last");
    assertThat(at(xml, file + "/face/region[2]/timeline/startTime")).isEqualTo("5.000000");
    assertThat(at(xml, file + "/formatList/formatRegion/bitDepth")).isEqualTo("20");
    assertThat(at(xml, file + "/formatList/formatRegion/wordSize")).isEqualTo("24");
    assertThat(at(xml, file + "/formatList/formatRegion/sampleRate")).isEqualTo("96000");
    assertThat(at(xml, file + "/source/primaryIdentifier")).isEqualTo(ORIGINAL.name());
    assertThat(at(xml, file + "/processingHistory/step[2]")).isEqualTo("second step");
    String disc = "/technicalMetadata/audioObject[2]";
    assertThat(at(xml, disc + "/@analogDigitalFlag")).isEqualTo("ANALOG");
    assertThat(at(xml, disc + "/@ID")).isEqualTo(at(xml, file + "/face/@discRef"));
    assertThat(at(xml, disc + "/physicalProperties/speed")).isEqualTo("78.26");
    assertThat(at(xml, disc + "/physicalProperties/stylusRadius/@unit")).isEqualTo("um");
    assertThat(at(xml, "count(/technicalMetadata//condition)")).isEqualTo("0");
  }

  @Test
  void aFileOfWhichNothingMoreIsKnownIsOneRegion() throws Exception {
    AudioFormat mono = AudioFormat.ieeeFloat(44_100, 1, 32);
    byte[] xml =
        TechnicalDocument.write(
            List.of(
                AudioObject.of(facts("a.wav", mono, 10)), AudioObject.of(facts("b.wav", mono, 0))));
    validate(xml);
    assertThat(at(xml, "/technicalMetadata/audioObject[1]/audioDataEncoding"))
        .isEqualTo("linear PCM, IEEE float");
    assertThat(at(xml, "/technicalMetadata/audioObject[1]/face/region/numChannels")).isEqualTo("1");
    assertThat(at(xml, "/technicalMetadata/audioObject[1]/formatList/formatRegion/soundField"))
        .isEqualTo("MONO");
    assertThat(at(xml, "count(/technicalMetadata/audioObject[2]/face/region)")).isEqualTo("0");
  }

  @Test
  void textsCannotBreakTheDocument() throws Exception {
    StringBuilder odd = new StringBuilder("]]> <!-- & \" ' \ud834 \udd1e 𝄞 ");
    for (char c = 0; c < 0xa0; c++) {
      odd.append(c);
    }
    odd.append('\ufffe').append('\uffff');
    AudioObject object =
        new AudioObject(
            FILE,
            odd.toString(),
            odd.toString(),
            List.of(new Region(odd.toString(), 0, 1)),
            new Disc(Map.of(DiscProperty.MATERIAL, odd.toString())),
            null,
            List.of(odd.toString()));
    byte[] xml = TechnicalDocument.write(List.of(object));
    validate(xml);
    String step = at(xml, "/technicalMetadata/audioObject[1]/processingHistory/step");
    assertThat(step).startsWith("]]> <!-- & \" ' ? ? 𝄞 ").contains(" !\"#$%&'()");
    // what an attribute holds comes back too
    assertThat(at(xml, "/technicalMetadata/audioObject[1]/face/@label")).isEqualTo(step);
  }

  @Test
  void theSchemaFindsWhatDoesNotBelong() {
    String xml = new String(TechnicalDocument.write(List.of(full())), StandardCharsets.UTF_8);
    for (String[] change :
        new String[][] {
          {"<bitDepth>20", "<bitDepth>many"},
          {"discRef=\"disc1\"", "discRef=\"disc2\""},
          {"<use>", "<purpose/><use>"},
          {"ab".repeat(32), "ab"}
        }) {
      assertThat(xml).contains(change[0]);
      byte[] changed = xml.replace(change[0], change[1]).getBytes(StandardCharsets.UTF_8);
      assertThatThrownBy(() -> validate(changed)).isInstanceOf(SAXParseException.class);
    }
  }

  @Test
  void anotherProgramFindsItValid() throws Exception {
    Tool xmllint = new Tool("xmllint");
    xmllint.assumeInstalled();
    Path file =
        Files.write(dir.resolve("side.xml"), TechnicalDocument.write(List.of(full(), full())));
    xmllint.run(dir, "--noout", "--schema", SCHEMA.toAbsolutePath(), file);
  }

  @Test
  void theSameFactsGiveTheSameBytes() {
    assertThat(TechnicalDocument.write(List.of(full())))
        .isEqualTo(TechnicalDocument.write(List.of(full())));
  }

  @Test
  void whatCannotBeIsToldInASentence() {
    assertThatThrownBy(() -> new Disc(Map.of(DiscProperty.SPEED, "fast")))
        .hasMessage("The disc's speed is \"fast\"; give a number of rpm above 0.");
    assertThatThrownBy(() -> new Disc(Map.of(DiscProperty.DIAMETER, "0")))
        .hasMessageContaining("above 0");
    assertThatThrownBy(
            () ->
                new AudioObject(
                    FILE, "", "", List.of(new Region("x", 960_000, 2)), null, null, List.of()))
        .hasMessage("The region \"x\" ends at frame 960002, but side.wav has only 960001.");
    assertThatThrownBy(() -> new Region("x", -1, 2)).isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new Region("x", 0, 0)).isInstanceOf(IllegalArgumentException.class);
  }
}
