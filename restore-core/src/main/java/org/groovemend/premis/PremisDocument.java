package org.groovemend.premis;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.groovemend.xml.XmlText;

/** Writes PREMIS 3 XML; the same content gives the same bytes. */
public final class PremisDocument {

  /** Of the published schema. */
  public static final String NAMESPACE = "http://www.loc.gov/premis/v3";

  private static final String XSI = "http://www.w3.org/2001/XMLSchema-instance";

  /** Identifiers count within the document alone. */
  private static final String LOCAL = "local";

  private final XmlText xml = new XmlText("premis", NAMESPACE);

  private PremisDocument() {}

  /**
   * The document.
   *
   * @throws IllegalArgumentException if two things have one identifier, or one is named that is not
   *     there
   */
  public static byte[] write(
      List<PremisObject> objects, List<PremisEvent> events, List<PremisAgent> agents) {
    requireLinks(objects, events, agents);
    PremisDocument document = new PremisDocument();
    document.xml.prefix("xsi", XSI).attribute("version", "3.0");
    objects.forEach(document::object);
    events.forEach(document::event);
    agents.forEach(document::agent);
    return document.xml.finish();
  }

  private static void requireLinks(
      List<PremisObject> objects, List<PremisEvent> events, List<PremisAgent> agents) {
    Set<String> files = unique(objects.stream().map(PremisObject::name).toList());
    Set<String> happened = unique(events.stream().map(PremisEvent::identifier).toList());
    Set<String> took = unique(agents.stream().map(PremisAgent::identifier).toList());
    for (PremisObject object : objects) {
      for (PremisObject.Relation relation : object.from()) {
        require(files, relation.object());
        if (relation.event() != null) {
          require(happened, relation.event());
        }
      }
    }
    for (PremisEvent event : events) {
      event.agents().forEach(link -> require(took, link.identifier()));
      event.objects().forEach(link -> require(files, link.identifier()));
    }
  }

  private static Set<String> unique(List<String> identifiers) {
    Set<String> set = new HashSet<>(identifiers);
    if (set.size() != identifiers.size()) {
      throw new IllegalArgumentException("an identifier comes twice: " + identifiers);
    }
    return set;
  }

  private static void require(Set<String> known, String identifier) {
    if (!known.contains(identifier)) {
      throw new IllegalArgumentException(
          identifier + " is none of " + known.stream().sorted().collect(Collectors.joining(", ")));
    }
  }

  private void object(PremisObject object) {
    xml.begin("object").attribute("xsi:type", "file");
    identifier("objectIdentifier", object.name());
    xml.begin("objectCharacteristics");
    xml.text("compositionLevel", "0");
    xml.begin("fixity");
    xml.text("messageDigestAlgorithm", "SHA-256");
    xml.text("messageDigest", object.sha256());
    xml.end();
    xml.text("size", Long.toString(object.bytes()));
    xml.begin("format").begin("formatDesignation");
    xml.text("formatName", object.formatName());
    xml.end();
    optional("formatNote", object.formatNote());
    xml.end().end();
    xml.text("originalName", object.name());
    if (!object.signatures().isEmpty()) {
      xml.begin("signatureInformation");
      object.signatures().forEach(this::signature);
      xml.end();
    }
    object.from().forEach(this::relationship);
    xml.end();
  }

  private void signature(PremisObject.Signed signed) {
    xml.begin("signature");
    xml.text("signatureEncoding", "Base64");
    optional("signer", signed.signer());
    xml.text("signatureMethod", signed.method());
    xml.text("signatureValue", signed.value());
    xml.text("signatureValidationRules", signed.rules());
    optional("signatureProperties", signed.properties());
    xml.end();
  }

  private void relationship(PremisObject.Relation relation) {
    xml.begin("relationship");
    xml.text("relationshipType", relation.type());
    xml.text("relationshipSubType", relation.subType());
    identifier("relatedObjectIdentifier", relation.object());
    if (relation.event() != null) {
      identifier("relatedEventIdentifier", relation.event());
    }
    xml.end();
  }

  private void event(PremisEvent event) {
    xml.begin("event");
    identifier("eventIdentifier", event.identifier());
    xml.text("eventType", event.type().term());
    xml.text("eventDateTime", event.dateTime());
    if (!event.detail().isEmpty()) {
      xml.begin("eventDetailInformation");
      xml.text("eventDetail", event.detail());
      xml.end();
    }
    if (!event.outcome().isEmpty()) {
      xml.begin("eventOutcomeInformation");
      xml.text("eventOutcome", event.outcome());
      if (!event.note().isEmpty()) {
        xml.begin("eventOutcomeDetail");
        xml.text("eventOutcomeDetailNote", event.note());
        xml.end();
      }
      xml.end();
    }
    event.agents().forEach(link -> linking("linkingAgent", link));
    event.objects().forEach(link -> linking("linkingObject", link));
    xml.end();
  }

  private void linking(String what, PremisEvent.Link link) {
    xml.begin(what + "Identifier");
    xml.text(what + "IdentifierType", LOCAL);
    xml.text(what + "IdentifierValue", link.identifier());
    optional(what + "Role", link.role());
    xml.end();
  }

  private void agent(PremisAgent agent) {
    xml.begin("agent");
    identifier("agentIdentifier", agent.identifier());
    optional("agentName", agent.name());
    xml.text("agentType", agent.person() ? "person" : "software");
    optional("agentVersion", agent.version());
    optional("agentNote", agent.note());
    xml.end();
  }

  private void identifier(String element, String value) {
    xml.begin(element);
    xml.text(element + "Type", LOCAL);
    xml.text(element + "Value", value);
    xml.end();
  }

  private void optional(String element, String text) {
    if (!text.isEmpty()) {
      xml.text(element, text);
    }
  }
}
