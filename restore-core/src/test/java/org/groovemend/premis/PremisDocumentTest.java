package org.groovemend.premis;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import javax.xml.XMLConstants;
import javax.xml.transform.stream.StreamSource;
import javax.xml.validation.SchemaFactory;
import javax.xml.validation.Validator;
import org.groovemend.premis.PremisEvent.Link;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.xml.sax.SAXException;

/**
 * Against docs/reference/premis-3-subset.xsd, which holds the rules of the published schema from
 * memory (structure and terms: check-values of the project, section 7).
 */
class PremisDocumentTest {

  private static final Path SCHEMA =
      Path.of(System.getProperty("basedir", "."), "..", "docs/reference/premis-3-subset.xsd");

  private static final String AT = "2026-03-01T12:00:00Z";

  private static PremisObject file(String name, List<PremisObject.Relation> from) {
    return new PremisObject(
        name,
        104,
        "ab".repeat(32),
        "WAV",
        "",
        from,
        List.of(new PremisObject.Signed("Wilma <Quist> & Co", "Ed25519", "AA==", "see there", "")));
  }

  private static List<PremisObject> objects() {
    return List.of(
        file("side.wav", List.of()),
        file(
            "side.restored.wav",
            List.of(new PremisObject.Relation("derivation", "has source", "side.wav", "event-0"))));
  }

  private static List<PremisEvent> events() {
    return java.util.Arrays.stream(PremisEvent.Type.values())
        .map(
            type ->
                new PremisEvent(
                    "event-" + type.ordinal(),
                    type,
                    AT,
                    "some \u0001 \ud800 detail\n\"quoted\" ]]>",
                    "success",
                    "note",
                    List.of(new Link("tool", "executing program")),
                    List.of(new Link("side.wav", "source"))))
        .toList();
  }

  private static List<PremisAgent> agents() {
    return List.of(
        new PremisAgent("tool", "groovemend", false, "1", ""),
        new PremisAgent("key", "Wilma Quist", true, "", "a note"));
  }

  private static String document() {
    return new String(PremisDocument.write(objects(), events(), agents()), StandardCharsets.UTF_8);
  }

  private static void validate(String xml) throws Exception {
    Validator validator =
        SchemaFactory.newInstance(XMLConstants.W3C_XML_SCHEMA_NS_URI)
            .newSchema(SCHEMA.toFile())
            .newValidator();
    validator.validate(new StreamSource(new StringReader(xml)));
  }

  @Test
  void whatIsWrittenKeepsTheRules() {
    assertDoesNotThrow(() -> validate(document()));
    assertTrue(document().contains("Wilma &lt;Quist&gt; &amp; Co"), document());
  }

  @Test
  void theSameContentIsTheSameBytes() {
    assertArrayEquals(
        PremisDocument.write(objects(), events(), agents()),
        PremisDocument.write(objects(), events(), agents()));
  }

  /** The rules can be broken: each of these is one rule. */
  @ParameterizedTest
  @CsvSource({
    "version=\"3.0\", version=\"2.2\"",
    "'<object xsi:type=\"file\">', <object>",
    "<compositionLevel>0<, <compositionLevel>x<",
    "<messageDigest>ab, <messageDigest>AB",
    "<eventType>creation<, <eventType>polishing<",
    "2026-03-01T12:00:00Z, yesterday",
    "<linkingObjectIdentifierValue>side.wav, <linkingObjectIdentifierValue>other.wav",
    "<linkingAgentIdentifierValue>tool, <linkingAgentIdentifierValue>nobody",
    "<relatedEventIdentifierValue>event-0, <relatedEventIdentifierValue>event-77",
    "<agentIdentifierValue>key, <agentIdentifierValue>tool",
    "premis/v3, premis/v2",
    "<size>104</size>, <extent>104</extent>"
  })
  void aBrokenRuleIsNoticed(String right, String wrong) {
    String broken = document().replace(right, wrong);
    assertNotEquals(document(), broken);
    assertThrows(SAXException.class, () -> validate(broken));
  }

  @Test
  void linksThatLeadNowhereAndDoublesAreRefused() {
    assertThrows(
        IllegalArgumentException.class,
        () -> PremisDocument.write(objects(), events(), agents().subList(1, 2)));
    assertThrows(
        IllegalArgumentException.class,
        () -> PremisDocument.write(objects().subList(1, 2), events(), agents()));
    assertThrows(
        IllegalArgumentException.class, () -> PremisDocument.write(objects(), List.of(), agents()));
    assertThrows(
        IllegalArgumentException.class,
        () ->
            PremisDocument.write(List.of(objects().get(0), objects().get(0)), List.of(), agents()));
  }
}
